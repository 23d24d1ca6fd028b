import { mentions, type LogRecord } from '@furrowmark/domain';
import { canonicalText } from '@furrowmark/log';
import { sameContent } from './content.ts';
import type { KnownEntry } from './lookup.ts';
import { refused, type RecordResult } from './outcome.ts';
import type { Prepared, Refused } from './prepare.ts';
import { retainedUntil } from './retention.ts';
import type { Opening } from '../log/index.ts';

/** One request: who sends it, and its records, each refused already or prepared. */
export interface AppendRequest {
  readonly accountId: string;
  readonly entries: readonly (Prepared | Refused)[];
}

/** A new entry of the log, ready to be written. */
export interface NewEntry {
  readonly bytes: Uint8Array;
  /** What stands beside the bytes in columns of their own. */
  readonly record: Pick<LogRecord, 'id' | 'seq' | 'type' | 'occurredAt' | 'recordedAt'>;
  readonly openings: readonly Opening[];
  readonly mentions: readonly string[];
  /** The person whose values are let go of, by a `person.erased`. */
  readonly erases: string | null;
}

/** What the log and the clock say at the moment of appending. */
export interface Ground {
  readonly operationId: string;
  /** The first free `seq`. */
  readonly size: number;
  /** RFC 3339, UTC; not before the last entry's. */
  readonly recordedAt: string;
  readonly known: ReadonlyMap<string, KnownEntry>;
  /** Of persons to be erased: when the last record by or about them was made. */
  readonly lastRecordOf: Map<string, number>;
}

interface Fresh {
  readonly seq: number;
  readonly content: string;
  readonly recordedBy: string;
}

/**
 * Gives each record of a group of requests its place, in the order of arrival: `recorded` with the next `seq`, `duplicate`
 * with the first, or `refused`. A plain function of what is given.
 */
export function decide(
  requests: readonly AppendRequest[],
  ground: Ground,
): { results: RecordResult[][]; entries: NewEntry[] } {
  const fresh = new Map<string, Fresh>();
  const entries: NewEntry[] = [];

  const one = (prepared: Prepared, accountId: string): RecordResult => {
    const { id, draft } = prepared;
    const earlier = fresh.get(id);
    const known = ground.known.get(id);
    if (earlier || known) {
      const same = known ? sameContent(known.members, known.openings, prepared) : earlier?.content === prepared.content;
      if (!same) return reused(id);
      const { seq, recordedAt } = known ?? { seq: earlier?.seq ?? 0, recordedAt: ground.recordedAt };
      return { id, status: 'duplicate', seq, recordedAt };
    }
    const target = prepared.ownOnly;
    const writer = target === null ? undefined : (fresh.get(target) ?? ground.known.get(target))?.recordedBy;
    if (writer !== undefined && writer !== accountId) return notOwn(id);
    if (draft.type === 'person.erased') {
      const until = retainedUntil(ground.lastRecordOf.get(draft.data.personId), ground.recordedAt);
      if (until !== null) return retained(id, until);
    }
    const seq = ground.size + entries.length;
    const { operationId, recordedAt } = ground;
    const server = { operationId, seq, recordedAt, recordedBy: accountId };
    const named = mentions(draft);
    for (const person of named)
      if (ground.lastRecordOf.has(person)) ground.lastRecordOf.set(person, Date.parse(recordedAt));
    const { type, occurredAt } = draft;
    entries.push({
      bytes: Buffer.from(canonicalText({ ...prepared.members, ...server })),
      record: { id: draft.id, seq, type, occurredAt, recordedAt },
      openings: prepared.openings,
      mentions: named,
      erases: draft.type === 'person.erased' ? draft.data.personId : null,
    });
    fresh.set(id, { seq, content: prepared.content, recordedBy: accountId });
    return { id, status: 'recorded', seq, recordedAt };
  };

  const results = requests.map(({ accountId, entries: records }) =>
    records.map((record) => (record.status === 'refused' ? record : one(record, accountId))),
  );
  return { results, entries };
}

const reused = (id: string): RecordResult =>
  refused(
    id,
    'id-reused',
    'Another record with other content has this id already. Give this one an id of its own; to correct the other, send record.amended.',
    [{ pointer: '/id', detail: 'This id belongs to another record.' }],
  );

const notOwn = (id: string): RecordResult =>
  refused(id, 'not-permitted', 'Somebody else recorded this. Ask a reviewer or manager to correct it.', [
    { pointer: '/data/recordId', detail: 'This record was written by somebody else.' },
  ]);

const retained = (id: string, until: string): RecordResult =>
  refused(
    id,
    'retention-not-over',
    `Records by or about this person must be kept until ${until}. Erase the person after that day.`,
    [{ pointer: '/data/personId', detail: `Kept until ${until}.` }],
  );
