import { z } from 'zod';
import { later } from '../later.ts';
import { offsetMinutesOf, parseInstant, textWithOffset } from '../calendar/index.ts';
import type { Instant } from '../facts/time.ts';
import { milligramsPerLitre } from '../quantity/index.ts';
import { concentration } from './amounts.ts';
import { calculation, refuse, type Refusal, type Worked } from './calculation.ts';
import { figure } from './figures.ts';
import { confidence, oxygenUptakeOf, type OxygenPoint, type Uptake } from './oxygenForecast.ts';

const source =
  'Slope of dissolved oxygen against time by ordinary least squares, as in batch respirometry; interval after Fieller 1954 with Student’s t';
const input = later(() =>
  z.strictObject({
    readings: z
      .array(
        z.strictObject({
          at: z
            .string()
            .refine(
              (text) => parseInstant(text) !== null,
              'must be a time with its offset, such as 2026-06-03T06:10:00-05:00',
            ),
          dissolvedOxygen: concentration(),
        }),
      )
      .max(10_000, 'must be at most 10000 readings'),
    limit: concentration(),
  }),
);

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

export const oxygenUptake = calculation<z.infer<ReturnType<typeof input>>, UptakeAnswer | UptakeUndetermined>({
  name: 'oxygen-uptake',
  title: 'Oxygen uptake rate after air off, and when the limit is reached',
  source,
  input,
  work: uptake,
});

function uptake(q: z.infer<ReturnType<typeof input>>): UptakeAnswer | UptakeUndetermined | Refusal {
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
