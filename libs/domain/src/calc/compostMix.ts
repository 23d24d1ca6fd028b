import { z } from 'zod';
import { later } from '../later.ts';
import { inUnit, mass, percent } from './amounts.ts';
import { calculation, refuse, type Refusal, type Worked } from './calculation.ts';
import { figure } from './figures.ts';

const source =
  'Cornell Waste Management Institute 1996: C:N = Σ Q·C·(100 − M) ÷ Σ Q·N·(100 − M), moisture = Σ Q·M ÷ Σ Q; C and N percent of dry matter, M percent moisture';

/** One material of a mix: mass as it lies there; carbon and nitrogen in percent of its dry matter. */
export interface MixPart {
  readonly kilograms: number;
  readonly moisturePercent: number;
  readonly carbonPercent: number;
  readonly nitrogenPercent: number;
}

/** Carbon to nitrogen and moisture of a mix. `carbonToNitrogen` null: no nitrogen in it. null: nothing in it. */
export function mixOf(
  parts: readonly MixPart[],
): { readonly carbonToNitrogen: number | null; readonly moisturePercent: number } | null {
  const total = (of: (p: MixPart) => number) => parts.reduce((sum, p) => sum + of(p), 0);
  const all = total((p) => p.kilograms);
  if (!(all > 0)) return null;
  const nitrogen = total((p) => p.kilograms * p.nitrogenPercent * (100 - p.moisturePercent));
  const carbon = total((p) => p.kilograms * p.carbonPercent * (100 - p.moisturePercent));
  return {
    carbonToNitrogen: nitrogen > 0 ? carbon / nitrogen : null,
    moisturePercent: total((p) => p.kilograms * p.moisturePercent) / all,
  };
}

const input = later(() =>
  z.strictObject({
    parts: z
      .array(
        z.strictObject({
          mass: mass(),
          moisturePercent: percent(),
          carbonPercent: percent(),
          nitrogenPercent: percent(),
        }),
      )
      .min(1, 'must hold at least one part')
      .max(1000, 'must be at most 1000 parts'),
  }),
);

export interface MixAnswer extends Worked {
  readonly carbonToNitrogen: number;
  readonly moisturePercent: number;
}

/** Carbon to nitrogen of a compost mix, weighed by nitrogen: the average of the parts' ratios would be wrong. */
export const compostMix = calculation<z.infer<ReturnType<typeof input>>, MixAnswer>({
  name: 'compost-mix',
  title: 'Carbon to nitrogen and moisture of a compost mix',
  source,
  input,
  work: mix,
});

function mix(q: z.infer<ReturnType<typeof input>>): MixAnswer | Refusal {
  const tooMuch = q.parts.findIndex((p) => p.carbonPercent + p.nitrogenPercent > 100);
  if (tooMuch >= 0)
    return refuse(['parts', tooMuch], 'Carbon and nitrogen together cannot exceed 100 % of dry matter.');
  const parts = q.parts.map((p) => ({ ...p, kilograms: inUnit(p.mass, 'kg') }));
  const found = mixOf(parts);
  if (found === null) return refuse(['parts'], 'The parts weigh nothing.');
  if (found.carbonToNitrogen === null) return refuse(['parts'], 'No part brings nitrogen, so there is no ratio.');
  const { carbonToNitrogen, moisturePercent } = found;
  return {
    carbonToNitrogen: Number(carbonToNitrogen.toPrecision(9)),
    moisturePercent: Number(moisturePercent.toPrecision(9)),
    working: [
      ...parts.map((p, i) => {
        const dry = (p.kilograms * (100 - p.moisturePercent)) / 100;
        return `Part ${String(i + 1)}: ${figure(p.kilograms)} kg, dry ${figure(dry)} kg; carbon ${figure((dry * p.carbonPercent) / 100)} kg, nitrogen ${figure((dry * p.nitrogenPercent) / 100)} kg`;
      }),
      `Sum of carbon ÷ sum of nitrogen = ${figure(carbonToNitrogen, 4)}; water ÷ all = ${figure(moisturePercent, 4)} %`,
    ],
    ...cautionsFor(carbonToNitrogen, moisturePercent),
    source,
  };
}

function cautionsFor(ratio: number, moisture: number): { cautions?: string[] } {
  const cautions = [
    ...(ratio < 25 || ratio > 40
      ? ['Outside 25:1 to 40:1, the initial ratio that the organic rule asks of compost (7 CFR 205.203(c)(2)).']
      : []),
    ...(moisture < 45 || moisture > 60
      ? ['Outside 45 to 60 % moisture, the range advised for a start (Cooperband 2002, University of Wisconsin).']
      : []),
  ];
  return cautions.length === 0 ? {} : { cautions };
}
