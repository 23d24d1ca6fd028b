import type { Batch, CurrentRecord } from '@furrowmark/domain';
import { useId, useState } from 'react';
import { whenText } from '../clock/text.ts';
import { lineOf } from '../records/line.ts';
import { initialsOf } from '../records/person.ts';
import type { LocalSeason } from '../season/local.ts';
import { useMayRecord } from '../session/useMayRecord.ts';
import { settings } from '../session/settings.ts';
import { useExternal } from '../store/external.ts';
import { Amend } from './Amend.tsx';
import { useTankWords } from './useTank.ts';

interface Props {
  readonly local: LocalSeason;
  readonly batch: Batch;
  readonly now: number;
}

/** What was recorded of this batch, the latest first; each can be put right with one touch. */
export function Recent({ local, batch, now }: Props) {
  const { w } = useTankWords();
  const id = useId();
  const [open, setOpen] = useState<string | null>(null);
  const records = batch.records
    .filter(({ type }) => !type.startsWith('record.') && type !== 'document.attached')
    .toReversed();
  return (
    <section className="card recent" aria-labelledby={id}>
      <h2 id={id}>{w.justRecorded}</h2>
      {records.length === 0 && <p className="faint">{w.nothingRecorded}</p>}
      <ul>
        {records.slice(0, 8).map((record) => (
          <RecentLine
            key={record.id}
            {...{ local, batch, record, now }}
            open={open === record.id}
            onToggle={() => setOpen(open === record.id ? null : record.id)}
          />
        ))}
      </ul>
    </section>
  );
}

interface LineProps extends Props {
  readonly record: CurrentRecord;
  readonly open: boolean;
  readonly onToggle: () => void;
}

function RecentLine({ local, batch, record, now, open, onToggle }: LineProps) {
  const { w, language } = useTankWords();
  const set = useExternal(settings);
  const mayRecord = useMayRecord();
  const id = useId();
  const { what, detail } = lineOf(local, record, set);
  const waits = [record.id, ...record.history.map(({ recordId }) => recordId)].some(
    (each) => local.queued.get(each)?.state.kind === 'waiting',
  );
  const initials =
    record.performedBy === undefined ? '' : initialsOf(local.engine, local.season.person(record.performedBy));
  return (
    <li className={`recent-line ${record.state}`}>
      <button type="button" className="recent-button" aria-expanded={open} aria-controls={id} onClick={onToggle}>
        <span className="recent-when">{whenText(record.at.at, local.season.timeZone, language, now)}</span>
        <span className="recent-what">
          {record.state === 'struck' ? (
            <del>
              {what} {detail}
            </del>
          ) : (
            <>
              <strong>{what}</strong> {detail}
            </>
          )}
          {initials !== '' && <span className="faint small"> {initials}</span>}
        </span>
        <span className={`recent-state${waits ? ' waits' : ''}`}>
          {record.state !== 'current' && <span>{w[record.state]} </span>}
          {waits ? `… ${w.waits}` : <span aria-label={w.recorded}>✓</span>}
        </span>
      </button>
      {open && mayRecord && <Amend {...{ local, batch, record, now, id }} onDone={onToggle} />}
    </li>
  );
}
