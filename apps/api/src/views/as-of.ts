import { openSeason, type OpenSeason } from '@furrowmark/domain';
import type { Reading } from './seasons.ts';

/** From where something is looked at: what had happened, what was known. Milliseconds. */
export interface Viewpoint {
  /** As of this instant: what happened later is left out, and it is the `now` of every judgement. */
  readonly at?: number | undefined;
  /** What was recorded later is left out. */
  readonly knownAt?: number | undefined;
  /** What has a greater `seq` is left out. */
  readonly asOfSeq?: number | undefined;
}

/** The season as it is seen from there, and the last `seq` in it. */
export function seenFrom(
  reading: Reading,
  { at, knownAt, asOfSeq }: Viewpoint,
): { season: OpenSeason; asOfSeq: number } {
  const newest = reading.season.size - 1;
  if (at === undefined && knownAt === undefined && asOfSeq === undefined)
    return { season: reading.season, asOfSeq: newest };
  const known = reading.season
    .written()
    .filter(
      ({ seq, recordedAt }) =>
        seq <= (asOfSeq ?? Infinity) && (knownAt === undefined || Date.parse(recordedAt) <= knownAt),
    );
  const season = openSeason(known, at === undefined ? {} : { until: at });
  return { season, asOfSeq: known.reduce((last, { seq }) => Math.max(last, seq), -1) };
}
