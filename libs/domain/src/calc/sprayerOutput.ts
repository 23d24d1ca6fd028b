import { z } from 'zod';
import { later } from '../later.ts';
import { Decimal, decimal, decimalIn, dimensionOf } from '../quantity/index.ts';
import { flow, length, speed, type Amount } from './amounts.ts';
import { calculation, refuse, type Refusal, type Worked } from './calculation.ts';
import { figure } from './figures.ts';

const source =
  'Extension sprayer calibration: GPA = 5940 × GPM per nozzle ÷ (MPH × nozzle spacing in inches), as in UF/IFAS WG013 and most US state guides; 5940 = 43,560 × 12 × 60 ÷ 5,280';

/** Gallons per acre of 43,560 square feet, exact: 5940 × gallons per minute ÷ (miles per hour × inches). */
export function gallonsPerAcre(flowPerNozzle: Amount, at: Amount, nozzleSpacing: Amount): Decimal | null {
  const gpm = decimalIn(flowPerNozzle, '[gal_us]/min');
  const mph = decimalIn(at, '[mi_i]/h');
  const inches = decimalIn(nozzleSpacing, '[in_i]');
  return gpm === null || mph === null || inches === null ? null : gpm.times(5940).div(mph.times(inches));
}

const input = later(() =>
  z.strictObject({
    flowPerNozzle: flow(),
    speed: speed(),
    nozzleSpacing: length(),
    unit: z
      .string()
      .refine(
        (unit) => dimensionOf(unit) === 'areaRate',
        'must be a volume on an area, such as [gal_us]/[acr_us] or L/har',
      )
      .optional(),
  }),
);

export interface OutputAnswer extends Worked {
  readonly rate: { readonly value: number; readonly unit: string };
}

/**
 * What a sprayer puts on an area. The formula's acre has 43,560 international square feet. UCUM's `[acr_us]` is the
 * survey acre, 4 millionths larger; a rate asked for per `[acr_us]` is the formula's own figure, so that it reads as
 * every calibration guide prints it.
 */
export const sprayerOutput = calculation<z.infer<ReturnType<typeof input>>, OutputAnswer>({
  name: 'sprayer-output',
  title: 'Sprayer output on an area',
  source,
  input,
  work: output,
});

function output(q: z.infer<ReturnType<typeof input>>): OutputAnswer | Refusal {
  const gpa = gallonsPerAcre(q.flowPerNozzle, q.speed, q.nozzleSpacing);
  const unit = q.unit ?? '[gal_us]/[acr_us]';
  const acre = '(43560.[sft_i])';
  const rate =
    gpa === null ? null : decimalIn({ value: gpa, unit: `[gal_us]/${acre}` }, unit.replace('[acr_us]', acre));
  if (gpa === null || rate === null) return refuse(['unit'], 'cannot be worked out from these units');
  const shown = (a: Amount, to: string) => figure(decimalIn(a, to)?.toNumber() ?? NaN);
  return {
    rate: { value: rate.toNumber(), unit },
    working: [
      `5940 × ${shown(q.flowPerNozzle, '[gal_us]/min')} gal/min ÷ (${shown(q.speed, '[mi_i]/h')} mi/h × ${shown(q.nozzleSpacing, '[in_i]')} in) = ${figure(gpa.toNumber())} gal per acre of 43,560 ft²`,
      ...(q.unit === undefined || q.unit === '[gal_us]/[acr_us]' ? [] : [`= ${figure(rate.toNumber())} ${unit}`]),
    ],
    cautions: [
      'Measure the flow of every nozzle with water at working pressure: one that differs by more than a tenth from the average is worn or blocked (common practice).',
    ],
    source,
  };
}

/** Sprayer loads for a volume: how many fillings, and how much goes into the last one. Same unit for both. */
export interface Loads {
  readonly loads: number;
  readonly full: number;
  /** Volume of the last filling where it is not a full one, else 0. */
  readonly last: Decimal;
}

/** How often a sprayer tank must be filled to put out a volume. Both more than 0, in the same unit. */
export function sprayerLoads(volume: Decimal | number, tank: Decimal | number): Loads {
  const [v, t] = [decimal(volume), decimal(tank)];
  if (!v.gte(0) || !t.gt(0)) throw new RangeError('a volume of at least 0 and a tank of more than 0');
  const full = v.div(t).floor().toNumber();
  const last = v.minus(t.times(full));
  return { loads: last.isZero() ? full : full + 1, full, last };
}
