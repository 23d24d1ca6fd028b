import { instantOf } from '../calendar/instant.ts';
import type { Instant } from '../facts/time.ts';
import type { LogRecord } from '../records/record.ts';
import { openSeason, type OpenSeason } from './season.ts';

export interface AsOf {
  /** Leaves out what happened later. Corrections are no happening: they tell what was true then, whenever they were made. */
  readonly at?: Instant | undefined;
  /** Leaves out what was recorded later, corrections included. */
  readonly knownAt?: Instant | undefined;
  /** Leaves out every record with a higher `seq`. */
  readonly asOfSeq?: number | undefined;
}

/** The season as of then. */
export function seasonAt(records: Iterable<LogRecord>, { at, knownAt, asOfSeq }: AsOf): OpenSeason {
  const known = [...records].filter(
    (record) =>
      (knownAt === undefined || instantOf(record.recordedAt) <= knownAt) &&
      (asOfSeq === undefined || record.seq <= asOfSeq),
  );
  return openSeason(known, at === undefined ? {} : { until: at });
}
