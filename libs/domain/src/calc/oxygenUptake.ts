import { z } from 'zod';
import { offsetMinutesOf, parseInstant, textWithOffset } from '../calendar/index.ts';
import type { Instant } from '../facts/time.ts';
import { milligramsPerLitre } from '../quantity/index.ts';
import { concentration } from './amounts.ts';
import { calculation, refuse, type Refusal, type Worked } from './calculation.ts';
import { figure } from './figures.ts';
import { fieller, leastSquares, reaches, slopeError, type Line } from './leastSquares.ts';

const source =
  'Slope of dissolved oxygen against time by ordinary least squares, as in batch respirometry; interval after Fieller 1954 with Student’s t';
const confidence = 0.95;
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

const input = z.strictObject({
  readings: z
    .array(
      z.strictObject({
        at: z
          .string()
          .refine(
            (text) => parseInstant(text) !== null,
            'must be a time with its offset, such as 2026-06-03T06:10:00-05:00',
          ),
        dissolvedOxygen: concentration,
      }),
    )
    .max(10_000, 'must be at most 10000 readings'),
  limit: concentration,
});

export interface UptakeAnswer extends Worked {
  /** mg/L per hour; positive while oxygen falls. */
  readonly rate: { readonly value: number; readonly unit: 'mg/L/h' };
  readonly reachesLimitAt: string;
  readonly interval: { readonly from: string; readonly to: string; readonly confidence: number };
  readonly readingsUsed: number;
}
export interface UptakeUndetermined extends Worked {
  readonly undetermined: string;
  /** Where the readings give a rate but no forecast. */
  readonly rate?: { readonly value: number; readonly unit: 'mg/L/h' };
}

export const oxygenUptake = calculation<z.infer<typeof input>, UptakeAnswer | UptakeUndetermined>({
  name: 'oxygen-uptake',
  title: 'Oxygen uptake rate after air off, and when the limit is reached',
  source,
  input,
  work: uptake,
});

function uptake(q: z.infer<typeof input>): UptakeAnswer | UptakeUndetermined | Refusal {
  const points: OxygenPoint[] = [];
  for (const [i, r] of q.readings.entries()) {
    const at = parseInstant(r.at);
    const mgPerL = milligramsPerLitre(r.dissolvedOxygen)?.toNumber();
    if (at === null || mgPerL === undefined) return refuse(['readings', i], 'cannot be read');
    if (mgPerL > 60) {
      return refuse(['readings', i, 'dissolvedOxygen', 'value'], 'More oxygen than water can hold: check the unit.');
    }
    points.push({ at, mgPerL });
  }
  const limit = milligramsPerLitre(q.limit)?.toNumber() ?? NaN;
  const found = oxygenUptakeOf(points, limit);
  if (found.kind === 'undetermined') {
    return {
      undetermined: found.why,
      ...(found.rate === null ? {} : { rate: perHour(found.rate) }),
      working: [`${String(points.length)} readings`],
      source,
    };
  }
  return answered(found, limit, points.length, offsetMinutesOf(q.readings[0]?.at ?? ''));
}

const perHour = (value: number) => ({ value: Number(value.toPrecision(9)), unit: 'mg/L/h' }) as const;

function answered(
  found: Extract<Uptake, { kind: 'forecast' }>,
  limit: number,
  given: number,
  offset: number,
): UptakeAnswer {
  const text = (at: Instant) => textWithOffset(at, offset);
  const [first, last] = [found.used[0]?.at ?? 0, found.used.at(-1)?.at ?? 0];
  const far = found.reachesLimitAt - last > 2 * (last - first);
  return {
    rate: perHour(found.rate),
    reachesLimitAt: text(found.reachesLimitAt),
    interval: { from: text(found.interval.from), to: text(found.interval.to), confidence },
    readingsUsed: found.used.length,
    working: [
      `${String(found.used.length)} of ${String(given)} readings lie on the declining limb, ${text(first)} to ${text(last)}`,
      `Least squares: oxygen falls ${figure(found.rate, 4)} mg/L per hour (standard error ${figure(found.rateError, 3)})`,
      `The line reaches ${figure(limit)} mg/L at ${text(found.reachesLimitAt)}; 95 % interval of that moment by Fieller’s method, t with ${String(found.used.length - 2)} degrees of freedom`,
    ],
    cautions: [
      'The forecast holds for this temperature and place in the tank and while the air stays off. Measure again before use.',
      ...(far ? ['The limit lies far beyond the readings: uptake may speed up or slow down until then.'] : []),
    ],
    source,
  };
}
