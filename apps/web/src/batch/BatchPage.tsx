import type { Batch } from '@furrowmark/domain';
import { memo, useCallback, useMemo, useState } from 'react';
import { Link, useParams } from 'wouter';
import { Afterwards } from '../app/Afterwards.tsx';
import { DocumentsOf } from '../desk/documents/DocumentsOf.tsx';
import { WhatHappened } from '../desk/happened/WhatHappened.tsx';
import { EmptyPage } from '../app/EmptyPage.tsx';
import { whenText } from '../clock/text.ts';
import { useNow } from '../clock/useNow.ts';
import { useJudged } from '../judge/useJudged.ts';
import { lineOf } from '../records/line.ts';
import { useSeason, type SeasonState } from '../season/useSeason.ts';
import { settings } from '../session/settings.ts';
import { useExternal } from '../store/external.ts';
import { isStuck, reception } from '../sync/sync.ts';
import { fromLocal, localText } from '../clock/local.ts';
import { useTankWords } from '../tank/useTank.ts';
import { Verdicts } from '../verdict/Verdicts.tsx';
import { useWordsOf } from '../words/useWords.ts';
import { Account } from './Account.tsx';
import './batch.css';
import { Picture } from './picture/Picture.tsx';
import { ReportButton } from './ReportButton.tsx';
import { Timeline, timelineId } from './Timeline.tsx';
import { batchWords } from './words.ts';

type Ready = Extract<SeasonState, { kind: 'ready' }>;

/** One batch: its picture, its verdicts, its account, everything recorded of it; now, or as it was known then. */
export default function BatchPage() {
  const { batchId = '' } = useParams<{ batchId: string }>();
  const state = useSeason();
  const [knownAt, setKnownAt] = useState<number | null>(null);
  const local = useMemo((): Ready | null => {
    if (state.kind !== 'ready') return null;
    if (knownAt === null) return state;
    return {
      ...state,
      season: state.engine.domain.openSeason(
        [...state.season.written()].filter(({ recordedAt }) => Date.parse(recordedAt) <= knownAt),
      ),
    };
  }, [state, knownAt]);
  if (state.kind !== 'ready' || local === null)
    return <EmptyPage kind={state.kind === 'ready' ? 'loading' : state.kind} />;
  const batch = local.season.batch(batchId) ?? state.season.batch(batchId);
  if (batch === undefined) return <NotHere whole={state.whole} />;
  return <OneBatch local={local} batch={batch} knownAt={knownAt} onKnownAt={setKnownAt} />;
}

/** A batch that this device does not know. While the past is still on its way, it may be in there. */
function NotHere({ whole }: { readonly whole: boolean }) {
  const w = useWordsOf(batchWords);
  const { kind } = useExternal(reception);
  if (!whole && !isStuck(kind)) return <EmptyPage kind="loading" />;
  return (
    <section className="page">
      <h1>{w.notHere}</h1>
      <p>
        <Link href="/batches" className="button quiet">
          {w.batches}
        </Link>
      </p>
    </section>
  );
}

// Each is drawn anew for what it shows, not for every word from the service.
const PictureOnce = memo(Picture);
const VerdictsOnce = memo(Verdicts);
const AccountOnce = memo(Account);
const TimelineOnce = memo(Timeline);

interface Props {
  readonly local: Ready;
  readonly batch: Batch;
  readonly knownAt: number | null;
  readonly onKnownAt: (at: number | null) => void;
}

function OneBatch({ local, batch, knownAt, onKnownAt }: Props) {
  const w = useWordsOf(batchWords);
  const { w: tank, language } = useTankWords();
  const set = useExternal(settings);
  const clock = useNow();
  const now = knownAt ?? clock;
  const [selected, setSelected] = useState<string | null>(null);
  const { engine, season } = local;
  const zone = season.timeZone;
  const outcomes = useJudged('judge', { batchId: batch.id, now, knownAt }, `${batch.id} ${String(knownAt)}`);
  // Those of the batch's own time: in winter, too, a batch of June was brewed by summer time.
  const letters = useJudged('zone', { at: batch.records[0]?.at.at ?? batch.opened?.at.at ?? 0, language }, zone);
  const open = batch.phase !== 'closed' && batch.phase !== 'reviewed';
  const vessel = batch.vesselId === null ? undefined : season.vessel(batch.vesselId);
  const recipe = batch.recipeId === null ? undefined : season.recipe(batch.recipeId, now);
  const select = useCallback((recordId: string): void => {
    setSelected(recordId);
    document.getElementById(timelineId(recordId))?.scrollIntoView({ block: 'nearest' });
  }, []);
  const recordText = useCallback(
    (id: string): string | null => {
      const record = local.season.record(id);
      if (record === undefined) return null;
      const { what, detail } = lineOf(local, record, set);
      return `${whenText(record.at.at, local.season.timeZone, language, now)} ${what} ${detail}`;
    },
    [local, set, language, now],
  );
  return (
    <article className="page batch-page">
      <header className="batch-head">
        <div>
          <h1>
            {batch.code}{' '}
            <span className="faint">{vessel === undefined ? '' : engine.domain.asOf(vessel, now).code}</span>
          </h1>
          <p className="faint">
            {[recipe?.data.code, tank[`v_${batch.kind}`], tank[`phase_${batch.phase}`]]
              .filter((part) => part !== undefined && part !== '')
              .join(' · ')}
            {letters !== null && ` · ${letters}`}
          </p>
        </div>
        <div className="row no-print">
          {open && (
            <Link href={`/tank/${batch.id}`} className="button">
              {w.atTank}
            </Link>
          )}
          <ReportButton batchId={batch.id} code={batch.code} />
          <button type="button" className="button quiet" onClick={() => window.print()}>
            {w.print}
          </button>
        </div>
      </header>
      {knownAt !== null && (
        <p className="known" role="status">
          {w.knownThen(whenText(knownAt, zone, language, clock))}
        </p>
      )}
      <section className="card" aria-labelledby="picture">
        <h2 id="picture">{w.picture}</h2>
        <PictureOnce local={local} batch={batch} now={now} selected={selected} onSelect={select} />
      </section>
      <div className="batch-columns">
        <section className="card" aria-labelledby="verdicts" aria-busy={outcomes === null}>
          <h2 id="verdicts">{w.verdicts}</h2>
          {outcomes === null ? (
            <div className="bone bone-card" />
          ) : (
            <VerdictsOnce engine={engine} outcomes={outcomes} onRecord={select} recordText={recordText} />
          )}
        </section>
        <Afterwards>
          <AccountOnce local={local} batch={batch} />
        </Afterwards>
      </div>
      <Afterwards>
        <TimelineOnce local={local} batch={batch} now={now} selected={selected} onSelect={setSelected} />
        {knownAt === null && <WhatHappened local={local} of="batch" about={{ batchId: batch.id }} />}
        <DocumentsOf local={local} id={batch.id} />
        <section className="card no-print">
          <label className="stack">
            <span>{w.knownTitle}</span>
            <input
              type="datetime-local"
              value={knownAt === null ? '' : localText(knownAt, zone)}
              onChange={(event) => onKnownAt(fromLocal(event.target.value, zone))}
            />
          </label>
          {knownAt !== null && (
            <button type="button" className="button quiet" onClick={() => onKnownAt(null)}>
              {w.knownNow}
            </button>
          )}
        </section>
      </Afterwards>
    </article>
  );
}
