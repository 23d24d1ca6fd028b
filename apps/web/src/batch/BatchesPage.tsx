import { memo, useState } from 'react';
import { Link } from 'wouter';
import { EmptyPage } from '../app/EmptyPage.tsx';
import { dayText } from '../clock/text.ts';
import { useNow } from '../clock/useNow.ts';
import { standing } from '../judge/judge.ts';
import type { BatchLine, Marks } from '../judge/questions.ts';
import { useJudged } from '../judge/useJudged.ts';
import { session } from '../session/session.ts';
import { useExternal } from '../store/external.ts';
import { useTankWords } from '../tank/useTank.ts';
import { VerdictMark } from '../verdict/VerdictMark.tsx';
import { useWords, useWordsOf } from '../words/useWords.ts';
import './batch.css';
import { batchWords } from './words.ts';

const atOnce = 25;
const tenMinutes = 600_000;
/** Batches whose verdicts are asked for together: the first are there while the others are still worked out. */
const together = 5;

/** Every batch, the latest first, with the worst of its verdicts. */
export default function BatchesPage() {
  const { kind, whole } = useExternal(standing);
  const operationId = useExternal(session)?.operationId ?? '';
  const found = useJudged('batches', {}, operationId);
  if (found === null) return <EmptyPage kind={kind === 'ready' ? 'loading' : kind} />;
  return <Batches key={operationId} whole={whole} lines={found.lines} zone={found.zone} />;
}

interface Props {
  readonly whole: boolean;
  readonly lines: readonly BatchLine[];
  readonly zone: string;
}

function Batches({ whole, lines, zone }: Props) {
  const w = useWordsOf(batchWords);
  const shell = useWords();
  const [text, setText] = useState('');
  const [most, setMost] = useState(atOnce);
  const found = lines.filter((line) =>
    [line.code, line.vesselCode, ...line.fields].some((name) => name.toLowerCase().includes(text.trim().toLowerCase())),
  );
  const shown = found.slice(0, most);
  const groups = Array.from({ length: Math.ceil(shown.length / together) }, (_, i) =>
    shown.slice(i * together, (i + 1) * together),
  );
  return (
    <section className="page">
      <h1>{w.batches}</h1>
      {!whole && <p role="status">{shell.pastComing}</p>}
      {lines.length === 0 && <p className="faint">{w.noBatches}</p>}
      {lines.length > 0 && (
        <label className="stack find">
          <span>{w.find}</span>
          <input type="search" value={text} onChange={(event) => setText(event.target.value)} />
        </label>
      )}
      <ul className="batch-list">
        {groups.map((group) => (
          <Group key={group.map(({ batchId }) => batchId).join()} lines={group} zone={zone} />
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

function Group({ lines, zone }: { readonly lines: readonly BatchLine[]; readonly zone: string }) {
  // The list need not tick: its verdicts are looked at anew every ten minutes.
  const now = Math.floor(useNow() / tenMinutes) * tenMinutes;
  const marks = useJudged('marks', { batchIds: lines.map(({ batchId }) => batchId), now });
  return lines.map((line) => (
    <li key={line.batchId}>
      <Line line={line} zone={zone} now={now} marks={marks?.find(({ batchId }) => batchId === line.batchId) ?? null} />
    </li>
  ));
}

interface LineProps {
  readonly line: BatchLine;
  readonly zone: string;
  readonly now: number;
  /** null: not judged yet. */
  readonly marks: Marks | null;
}

const Line = memo(function Line({ line, zone, now, marks }: LineProps) {
  const { w, language } = useTankWords();
  const { batchId, code, startedAt, vesselCode, fields, phase, closed } = line;
  // Only what is decided: what is due or unknown of a running brew is the tank's affair.
  const counts =
    marks === null ? [] : (['broken', 'caution', 'unknown'] as const).map((each) => [each, marks[each]] as const);
  return (
    <Link href={`/batch/${batchId}`} className="batch-line">
      <span className="batch-code">{code}</span>
      <span className="batch-when">{dayText(startedAt, zone, language, now)}</span>
      <span className="batch-where">
        {vesselCode}
        {fields.length > 0 && ` → ${fields.join(', ')}`}
      </span>
      <span className="faint small">{w[`phase_${phase}`]}</span>
      <span className="batch-marks" aria-busy={marks === null}>
        {counts.map(([verdict, count]) =>
          count === 0 ? null : <VerdictMark key={verdict} verdict={verdict} word={String(count)} />,
        )}
        {closed && marks !== null && counts.every(([, count]) => count === 0) && <VerdictMark verdict="met" />}
      </span>
    </Link>
  );
});
