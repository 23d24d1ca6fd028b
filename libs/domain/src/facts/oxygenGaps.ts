import type { Instant } from './time.ts';
import type { Batch } from './types.ts';

const hour = 3_600_000;

/** When brewing ended: *the* air off, else the last draw, else the closing; null while it goes on. */
export function brewingEnd(batch: Batch): Instant | null {
  return batch.airOff?.at ?? batch.draws.at(-1)?.at.at ?? batch.closed?.at.at ?? null;
}

/**
 * The longest time without an oxygen reading, hours: from brew start or a reading to the next reading or the end of
 * brewing. While brewing goes on, up to the last reading. null before the brew starts, or with nothing to measure to.
 */
export function longestOxygenGapHours(batch: Batch): number | null {
  if (batch.brewStart === null) return null;
  const start = batch.brewStart.at;
  const end = brewingEnd(batch);
  const points = batch.oxygen.map((reading) => reading.at.at).filter((at) => at > start && (end === null || at < end));
  if (end !== null && end > start) points.push(end);
  let before = start;
  let longest: number | null = null;
  for (const at of points) {
    longest = Math.max(longest ?? 0, at - before);
    before = at;
  }
  return longest === null ? null : longest / hour;
}
