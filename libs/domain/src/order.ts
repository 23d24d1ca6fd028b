import { instantOf } from './calendar/instant.ts';
import type { Instant } from './facts/time.ts';
import { rankOf } from './records/catalogue.ts';
import type { RecordType } from './records/catalogue.ts';

/** What places a record among others: when it happened, its type, its id. Never when it arrived. */
export interface Place {
  readonly instant: Instant;
  readonly rank: number;
  readonly id: string;
}

/** Earlier first; at the same instant the lower rank of type, then the lower id. A total order, as ids are unique. */
export function comparePlaces(a: Place, b: Place): number {
  return a.instant - b.instant || a.rank - b.rank || compareIds(a.id, b.id);
}

/** By code unit, so that every machine and language of the reader sorts alike. */
export function compareIds(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

interface Written {
  readonly id: string;
  readonly type: RecordType;
  readonly occurredAt: string;
}

/** The place of a record as it says itself. */
export function placeOf(record: Written): Place {
  return { instant: instantOf(record.occurredAt), rank: rankOf(record.type), id: record.id };
}

/** Sorts records as written (before corrections). */
export function compareWritten(a: Written, b: Written): number {
  return comparePlaces(placeOf(a), placeOf(b));
}

interface Current {
  readonly id: string;
  readonly type: RecordType;
  readonly at: { readonly at: Instant };
}

/** Sorts current records: by the instant that counts now, amendments included. */
export function compareCurrent(a: Current, b: Current): number {
  return a.at.at - b.at.at || rankOf(a.type) - rankOf(b.type) || compareIds(a.id, b.id);
}
