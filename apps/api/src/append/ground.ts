import type { EntityManager } from 'typeorm';
import { lockHead, type Head } from '../log/index.ts';
import type { AppendRequest } from './decide.ts';
import { knownEntries, lastRecordsOf, type KnownEntry } from './lookup.ts';
import type { Prepared } from './prepare.ts';

/** What an append is decided on: where the log stands, and what it holds of the records that are sent. */
export interface LookedUp {
  readonly head: Head;
  readonly known: ReadonlyMap<string, KnownEntry>;
  /** Of persons to be erased: when the last record by or about them was made. */
  readonly lastRecordOf: Map<string, number>;
}

/** Locks the log until the transaction ends, and looks up in it what the requests need to know. */
export async function lookUp(
  manager: EntityManager,
  operationId: string,
  requests: readonly AppendRequest[],
): Promise<LookedUp> {
  const prepared = preparedIn(requests);
  const ids = new Set(prepared.flatMap(({ id, ownOnly }) => (ownOnly === null ? [id] : [id, ownOnly])));
  const erased = prepared.flatMap(({ draft }) => (draft.type === 'person.erased' ? [draft.data.personId] : []));
  const [head, known, lastRecords] = await Promise.all([
    lockHead(manager, operationId),
    knownEntries(manager, operationId, [...ids]),
    lastRecordsOf(manager, operationId, erased),
  ]);
  if (head === null) throw new Error(`the operation ${operationId} has no log`);
  return { head, known, lastRecordOf: new Map(erased.map((id) => [id, lastRecords.get(id) ?? -Infinity])) };
}

/** Whether a decision depends on more than where the log stands; also where there is nothing to write. */
export function asksTheLog(requests: readonly AppendRequest[]): boolean {
  const prepared = preparedIn(requests);
  return (
    prepared.length === 0 || prepared.some(({ ownOnly, draft }) => ownOnly !== null || draft.type === 'person.erased')
  );
}

/** The records of the requests that were not refused already. */
export function preparedIn(requests: readonly AppendRequest[]): Prepared[] {
  return requests.flatMap(({ entries }) => entries.filter((entry) => entry.status === 'prepared'));
}
