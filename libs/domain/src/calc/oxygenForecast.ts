import type { Instant } from '../facts/time.ts';
import { fieller, leastSquares, reaches, slopeError, type Line } from './leastSquares.ts';

/** Confidence of the forecast's interval. */
export const confidence = 0.95;
const hour = 3_600_000;
const longestForecast = 7 * 24 * hour;

/** One reading in one place of the tank. `at`: ms since 1970; oxygen in mg/L. */
export interface OxygenPoint {
  readonly at: Instant;
  readonly mgPerL: number;
}

/** What readings after the air went off say: how fast oxygen is used, and when it reaches a limit. */
export type Uptake =
  | {
      readonly kind: 'forecast';
      /** mg/L per hour, positive while oxygen falls. */
      readonly rate: number;
      /** Standard error of the rate, mg/L per hour. */
      readonly rateError: number;
      readonly reachesLimitAt: Instant;
      readonly interval: { readonly from: Instant; readonly to: Instant; readonly confidence: number };
      /** The readings used: the declining limb, from the highest reading to the lowest after it. */
      readonly used: readonly OxygenPoint[];
    }
  | { readonly kind: 'undetermined'; readonly why: string; readonly rate: number | null };

/**
 * Oxygen uptake rate and forecast. The declining limb runs from the last of the highest readings (bubbles that still
 * rise keep the first ones up) to the first of the lowest after it (an empty tank, or air on again, ends the decline).
 */
export function oxygenUptakeOf(readings: readonly OxygenPoint[], limitMgPerL: number): Uptake {
  const limb = decliningLimb([...readings].sort((a, b) => a.at - b.at));
  const start = limb[0];
  const last = limb.at(-1);
  if (readings.length < 3) return undetermined('Fewer than three readings: a line through two fits whatever they are.');
  if (start === undefined || last === undefined || limb.length < 3) {
    return undetermined(
      'The oxygen does not decline through at least three readings: take more, some minutes apart, with the air off.',
    );
  }
  const line = leastSquares(limb.map((p) => ({ x: (p.at - start.at) / hour, y: p.mgPerL })));
  if (line === null) return undetermined('The readings were all taken at the same moment.');
  if (line.slope >= 0) return undetermined('The oxygen is not declining.');
  return forecast(line, limb, start, last, limitMgPerL);
}

function forecast(
  line: Line,
  used: readonly OxygenPoint[],
  start: OxygenPoint,
  last: OxygenPoint,
  limit: number,
): Uptake {
  const rate = -line.slope;
  const bounds = fieller(line, limit, confidence);
  if (bounds === null) {
    return undetermined('The readings scatter too much to tell a decline from none: take more of them.', null);
  }
  if (start.mgPerL <= limit) {
    return undetermined('The oxygen was at or below the limit already when the decline began.', rate);
  }
  const at = (x: number): Instant => start.at + x * hour;
  if (at(bounds.to) - last.at > longestForecast) {
    return undetermined('The decline is too slow, or too few readings show it, for a forecast within a week.', rate);
  }
  return {
    kind: 'forecast',
    rate,
    rateError: slopeError(line),
    reachesLimitAt: at(reaches(line, limit)),
    interval: { from: at(bounds.from), to: at(bounds.to), confidence },
    used,
  };
}

function decliningLimb(sorted: readonly OxygenPoint[]): readonly OxygenPoint[] {
  let top = 0;
  sorted.forEach((p, i) => {
    if (p.mgPerL >= (sorted[top]?.mgPerL ?? -Infinity)) top = i;
  });
  let bottom = top;
  sorted.forEach((p, i) => {
    if (i > top && p.mgPerL < (sorted[bottom]?.mgPerL ?? Infinity)) bottom = i;
  });
  return sorted.slice(top, bottom + 1);
}

const undetermined = (why: string, rate: number | null = null): Uptake => ({ kind: 'undetermined', why, rate });
