import type { Batch, CurrentRecord } from '@furrowmark/domain';
import { useId, useState } from 'react';
import { Link } from 'wouter';
import { whenText } from '../clock/text.ts';
import { lineOf } from '../records/line.ts';
import type { LocalSeason } from '../season/local.ts';
import { useMayRecord } from '../session/useMayRecord.ts';
import { settings } from '../session/settings.ts';
import { useExternal } from '../store/external.ts';
import { formOfType } from './forms/index.ts';
import { Strike } from './Strike.tsx';
import { useTankWords } from './useTank.ts';
import { useTanks } from './useTanks.ts';
import { keep, recordOf } from './write.ts';
import { toldHere } from '../refusals/Told.tsx';

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
  const person =
    record.performedBy === undefined ? undefined : local.season.person(record.performedBy)?.registered.personal;
  const initials = person !== undefined && 'name' in person ? (person.initials ?? person.name) : '';
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

function Amend({
  local,
  batch,
  record,
  now,
  id,
  onDone,
}: Props & { readonly record: CurrentRecord; readonly id: string; readonly onDone: () => void }) {
  const { w, language } = useTankWords();
  const { engine, season } = local;
  const set = useExternal(settings);
  const [failed, setFailed] = useState<string | null>(null);
  const text = (at: number): string => engine.domain.zonedText(at, season.timeZone);
  const { what, detail } = lineOf(local, record, set);
  const when = whenText(record.at.at, season.timeZone, language, now);
  const correct = async (changes: object, reason: string): Promise<void> => {
    const data = {
      ...{ recordId: record.id, type: record.type, version: record.version },
      data: record.data,
      ...changes,
      reason,
    };
    const problem = await keep(local, [recordOf(local, { type: 'record.amended', data, at: Date.now() })]);
    if (problem === null) onDone();
    else setFailed(await toldHere(problem.detail));
  };
  const strike = async (recordId: string, type: CurrentRecord['type'], reason: string): Promise<void> => {
    const data = { recordId, type, reason };
    const problem = await keep(local, [recordOf(local, { type: 'record.struck', data, at: Date.now() })]);
    if (problem === null) onDone();
    else setFailed(await toldHere(problem.detail));
  };
  const form = formOfType(record.type);
  const tanks = useTanks();
  const others = tanks.kind === 'ready' ? tanks.view.tanks.filter(({ batchId }) => batchId !== batch.id) : [];
  const original = record.history.find(({ kind }) => kind === 'original');
  const before = original === undefined || record.state === 'current' ? null : lineBefore(local, record, original, set);
  return (
    <div className="amend" id={id}>
      {before !== null && (
        <p className="small">
          <del>
            {whenText(
              engine.domain.instantOf(original?.occurredAt ?? record.occurredAt),
              season.timeZone,
              language,
              now,
            )}{' '}
            {before}
          </del>
        </p>
      )}
      {record.state !== 'struck' && (
        <div className="chips">
          {[5, 15].map((minutes) => (
            <button
              key={minutes}
              type="button"
              className="chip"
              onClick={() => void correct({ occurredAt: text(record.at.at - minutes * 60_000) }, w.wrongTime)}
            >
              {w.earlier(minutes)}
            </button>
          ))}
          {'batchId' in record.data &&
            others.map((other) => (
              <button
                key={other.batchId}
                type="button"
                className="chip"
                onClick={() => void correct({ data: { ...record.data, batchId: other.batchId } }, w.wrongTank)}
              >
                {w.otherTank(`${other.vesselCode} ${other.code}`)}
              </button>
            ))}
          {form !== null && (
            <Link href={`/tank/${batch.id}/record/${form.id}?amend=${record.id}`} className="chip button-chip">
              {w.changeFigures}
            </Link>
          )}
        </div>
      )}
      <Strike record={record} line={`${what} ${detail} (${when})`} strike={strike} />
      {failed !== null && (
        <p role="alert" className="problem">
          {failed}
        </p>
      )}
    </div>
  );
}

/** What it said at first, for striking through. */
function lineBefore(
  local: LocalSeason,
  record: CurrentRecord,
  original: CurrentRecord['history'][number],
  set: Parameters<typeof lineOf>[2],
): string {
  const { data } = original;
  if (typeof data !== 'object' || data === null) return '';
  const said: object = { ...record, data };
  return isRecord(said) ? lineOf(local, said, set).detail : '';
}
const isRecord = (value: object): value is CurrentRecord => 'type' in value && 'data' in value;
