/** Milliseconds since 1970-01-01T00:00Z; a fraction where the record gave more digits. */
export type Instant = number;

/**
 * When something happened, and how sure that is: `at` as recorded, `from`–`to` the bounds within which it lies.
 * An exact time has `from === at === to`. A power cut found at dawn lies between `lastKnownRunningAt` and `foundAt`.
 */
export interface Moment {
  readonly at: Instant;
  readonly from: Instant;
  readonly to: Instant;
}

/** A length of time computed from moments: as recorded, and its least and greatest possible value. Same unit as its name says. */
export interface Span {
  readonly value: number;
  readonly least: number;
  readonly most: number;
}
