import type { Batch, CurrentRecord } from '@furrowmark/domain';
import { useState } from 'react';
import { Link } from 'wouter';
import { whenText } from '../clock/text.ts';
import { lineOf } from '../records/line.ts';
import { initialsOf } from '../records/person.ts';
import { toldHere } from '../refusals/Told.tsx';
import type { LocalSeason } from '../season/local.ts';
import { settings } from '../session/settings.ts';
import { useExternal } from '../store/external.ts';
import { formOfType } from './forms/index.ts';
import { Strike } from './Strike.tsx';
import { useTankWords } from './useTank.ts';
import { useTanks } from './useTanks.ts';
import { keep, recordOf } from './write.ts';

interface Props {
  readonly local: LocalSeason;
  readonly batch: Batch;
  readonly record: CurrentRecord;
  readonly now: number;
  readonly id: string;
  readonly onDone: () => void;
}

/** What puts one record right: time, tank and person with one touch, figures in its form; or strikes it out. */
export function Amend({ local, batch, record, now, id, onDone }: Props) {
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
          {crew(local)
            .filter((person) => person.id !== record.performedBy)
            .map((person) => (
              <button
                key={person.id}
                type="button"
                className="chip"
                onClick={() => void correct(doneBy(record, person.id), w.wrongPerson)}
              >
                {w.otherPerson(person.initials)}
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

/** Who may have done it: people of the farm, by their initials. More than a few are found in the form. */
function crew({ engine, season }: LocalSeason): readonly { readonly id: string; readonly initials: string }[] {
  const people = season
    .people()
    .filter(({ retired }) => retired === undefined)
    .map((person) => ({ id: person.id, initials: initialsOf(engine, person) }))
    .filter(({ initials }) => initials !== '');
  return people.length > most ? [] : people;
}
const most = 6;

/** The correction that another person did it; of an application that one is the applicator. */
const doneBy = (record: CurrentRecord, id: string): object => ({
  performedBy: id,
  ...('applicator' in record.data ? { data: { ...record.data, applicator: id } } : {}),
});

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
