import type { Batch } from '@furrowmark/domain';
import { memo, useState } from 'react';
import { Link } from 'wouter';
import { EmptyPage } from '../app/EmptyPage.tsx';
import { dayText } from '../clock/text.ts';
import { useNow } from '../clock/useNow.ts';
import { useSeason, type SeasonState } from '../season/useSeason.ts';
import { useTankWords } from '../tank/useTank.ts';
import { VerdictMark } from '../verdict/VerdictMark.tsx';
import { useWords, useWordsOf } from '../words/useWords.ts';
import './batch.css';
import { batchWords } from './words.ts';

type Ready = Extract<SeasonState, { kind: 'ready' }>;

/** Every batch, the latest first, with the worst of its verdicts. */
export default function BatchesPage() {
  const state = useSeason();
  return state.kind === 'ready' ? <Batches local={state} /> : <EmptyPage kind={state.kind} />;
}

const atOnce = 25;
const tenMinutes = 600_000;
const startOf = (batch: Batch): number => batch.opened?.at.at ?? batch.records[0]?.at.at ?? 0;

function Batches({ local }: { readonly local: Ready }) {
  const w = useWordsOf(batchWords);
  const shell = useWords();
  const [text, setText] = useState('');
  const [most, setMost] = useState(atOnce);
  const { season } = local;
  // The list need not tick: its verdicts are looked at anew every ten minutes.
  const now = Math.floor(useNow() / tenMinutes) * tenMinutes;
  const all = season.batches().toSorted((a, b) => startOf(b) - startOf(a));
  const found = all.filter((batch) =>
    namesOf(local, batch).some((name) => name.toLowerCase().includes(text.trim().toLowerCase())),
  );
  return (
    <section className="page">
      <h1>{w.batches}</h1>
      {!local.whole && <p role="status">{shell.pastComing}</p>}
      {all.length === 0 && <p className="faint">{w.noBatches}</p>}
      {all.length > 0 && (
        <label className="stack find">
          <span>{w.find}</span>
          <input type="search" value={text} onChange={(event) => setText(event.target.value)} />
        </label>
      )}
      <ul className="batch-list">
        {found.slice(0, most).map((batch) => (
          <li key={batch.id}>
            <BatchLine local={local} batch={batch} now={now} />
          </li>
        ))}
      </ul>
      {found.length > most && (
        <button type="button" className="button quiet" onClick={() => setMost(most + 2 * atOnce)}>
          {w.more(found.length - most)}
        </button>
      )}
    </section>
  );
}

/** What a batch is looked for by: its code, its tank, the fields it went to. */
function namesOf({ season }: Ready, batch: Batch): readonly string[] {
  const vessel = batch.vesselId === null ? undefined : season.vessel(batch.vesselId);
  const fields = season
    .applicationsOf(batch.id)
    .flatMap(({ targets }) =>
      targets.map(({ fieldId }) => (fieldId === undefined ? '' : (season.field(fieldId)?.registered.code ?? ''))),
    );
  return [batch.code, vessel?.registered.code ?? '', ...new Set(fields)].filter((name) => name !== '');
}

interface LineProps {
  readonly local: Ready;
  readonly batch: Batch;
  readonly now: number;
}

const BatchLine = memo(function BatchLine({ local, batch, now }: LineProps) {
  const { w, language } = useTankWords();
  const { engine, season } = local;
  const [, vessel = '', ...fields] = namesOf(local, batch);
  // Only what is decided: what is due or unknown of a running brew is the tank's affair.
  const outcomes = engine.rules.judgeBatch(season, batch.id, now);
  const counts = (['broken', 'caution', 'unknown'] as const).map(
    (verdict) => [verdict, outcomes.filter(({ outcome }) => outcome === verdict).length] as const,
  );
  return (
    <Link href={`/batch/${batch.id}`} className="batch-line">
      <span className="batch-code">{batch.code}</span>
      <span className="batch-when">{dayText(startOf(batch), season.timeZone, language, now)}</span>
      <span className="batch-where">
        {vessel}
        {fields.length > 0 && ` → ${fields.join(', ')}`}
      </span>
      <span className="faint small">{w[`phase_${batch.phase}`]}</span>
      <span className="batch-marks">
        {counts.map(([verdict, count]) =>
          count === 0 ? null : <VerdictMark key={verdict} verdict={verdict} word={String(count)} />,
        )}
        {batch.closed !== null && counts.every(([, count]) => count === 0) && <VerdictMark verdict="met" />}
      </span>
    </Link>
  );
});
