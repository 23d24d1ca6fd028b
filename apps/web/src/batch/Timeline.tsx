import type { Batch, CurrentRecord } from '@furrowmark/domain';
import { clockText, dayText, whenText } from '../clock/text.ts';
import { lineOf } from '../records/line.ts';
import { personalOf } from '../records/person.ts';
import type { LocalSeason } from '../season/local.ts';
import { settings } from '../session/settings.ts';
import { useExternal } from '../store/external.ts';
import { useTankWords } from '../tank/useTank.ts';
import { useWordsOf } from '../words/useWords.ts';
import { batchWords } from './words.ts';

interface Props {
  readonly local: LocalSeason;
  readonly batch: Batch;
  readonly now: number;
  readonly selected: string | null;
  readonly onSelect: (recordId: string) => void;
}

export const timelineId = (recordId: string): string => `record-${recordId}`;

/** Everything recorded of the batch, in order of time; what was amended or struck with what it said before. */
export function Timeline({ local, batch, now, selected, onSelect }: Props) {
  const w = useWordsOf(batchWords);
  const records = batch.records.filter(({ type }) => !type.startsWith('record.'));
  return (
    <section className="card" aria-labelledby="timeline">
      <h2 id="timeline">{w.timeline}</h2>
      <ol className="timeline">
        {records.map((record) => (
          <Line
            key={record.id}
            {...{ local, record, now }}
            on={selected === record.id}
            onSelect={() => onSelect(record.id)}
          />
        ))}
      </ol>
    </section>
  );
}

interface LineProps {
  readonly local: LocalSeason;
  readonly record: CurrentRecord;
  readonly now: number;
  readonly on: boolean;
  readonly onSelect: () => void;
}

function Line({ local, record, now, on, onSelect }: LineProps) {
  const w = useWordsOf(batchWords);
  const { language } = useTankWords();
  const set = useExternal(settings);
  const { engine, season, queued } = local;
  const zone = season.timeZone;
  const { what, detail } = lineOf(local, record, set);
  const by = record.performedBy === undefined ? null : personalOf(engine, season.person(record.performedBy));
  const waits = queued.get(record.id)?.state.kind === 'waiting';
  const unsure = record.plusMinusMinutes === undefined ? '' : ` ± ${String(record.plusMinusMinutes)} min`;
  const said = `${what} ${detail}`;
  return (
    <li id={timelineId(record.id)} className={on ? 'timeline-line on' : 'timeline-line'}>
      <button type="button" className="timeline-button" aria-pressed={on} onClick={onSelect}>
        <span className="timeline-when">
          {dayText(record.at.at, zone, language, now)} <strong>{clockText(record.at.at, zone)}</strong>
          {unsure}
        </span>
        <span>
          {record.state === 'struck' ? (
            <del>{said}</del>
          ) : (
            <>
              <strong>{what}</strong> {detail}
            </>
          )}
        </span>
        <span className="faint small">{by?.name}</span>
        <span className="faint small">
          {waits
            ? w.waits
            : `${w.recordedAt} ${whenText(engine.domain.instantOf(record.recordedAt), zone, language, now)}`}
        </span>
      </button>
      {record.history.length > 0 && (
        <ul className="history">
          {record.history.map((step) => {
            const before =
              typeof step.data === 'object' && step.data !== null
                ? lineOf(local, saying(record, step.data), set).detail
                : '';
            const text = `${whenText(engine.domain.instantOf(step.occurredAt), zone, language, now)} ${before}`;
            return (
              <li key={step.recordId}>
                {step.kind === 'original' ? w.original : step.kind === 'amended' ? w.amendedTo : w.struckBy}{' '}
                {step.kind === 'original' ? <del>{text}</del> : step.inForce ? before : <del>{before}</del>}
                {step.reason !== undefined && <em> {step.reason}</em>}{' '}
                <span className="faint">
                  ({whenText(engine.domain.instantOf(step.recordedAt), zone, language, now)})
                </span>
              </li>
            );
          })}
        </ul>
      )}
    </li>
  );
}

/** The record with what an earlier or later step says. */
function saying(record: CurrentRecord, data: object): CurrentRecord {
  return { ...record, data } as CurrentRecord; // eslint-disable-line @typescript-eslint/consistent-type-assertions -- a revision's data is of its record's type: the log refused it otherwise
}
