import { z } from 'zod';
import { later } from '../later.ts';
import { dimensionOf, numberIn, type NamedDimension } from '../quantity/index.ts';

/** Numbers as records hold them: finite and below 10¹² in size, so no answer can overflow. */
export const plainNumber = later(() =>
  z.number().refine((n) => Math.abs(n) < 1e12, 'must be smaller than 1000000000000'),
);

/** A percentage, 0 to 100. */
export const percent = later(() => z.number().min(0, 'must be 0 to 100').max(100, 'must be 0 to 100'));

interface Asked {
  /** For the message: “must be a volume, such as L or [gal_us]”. */
  readonly words: string;
  readonly dimensions: readonly NamedDimension[];
  /** Further codes taken though their dimension differs (`[ppm]` for mg/L). */
  readonly also?: readonly string[];
  readonly sign: 'positive' | 'notNegative' | 'any';
}

const amount = ({ words, dimensions, also = [], sign }: Asked) =>
  later(() =>
    z.strictObject({ value: plainNumber(), unit: z.string() }).check(({ value: q, issues }) => {
      const dimension = dimensionOf(q.unit);
      if (!also.includes(q.unit) && !dimensions.some((d) => d === dimension)) {
        issues.push({ code: 'custom', input: q.unit, path: ['unit'], message: `must be ${words}` });
      }
      if (sign === 'positive' && q.value <= 0) {
        issues.push({ code: 'custom', input: q.value, path: ['value'], message: 'must be more than 0' });
      }
      if (sign === 'notNegative' && q.value < 0) {
        issues.push({ code: 'custom', input: q.value, path: ['value'], message: 'must not be negative' });
      }
    }),
  );

export type Amount = z.infer<ReturnType<ReturnType<typeof amount>>>;

export const temperature = amount({
  words: 'a temperature: Cel, [degF] or K',
  dimensions: ['temperature'],
  sign: 'any',
});
export const pressure = amount({
  words: "a pressure, such as kPa, hPa, mm[Hg] or [in_i'Hg]",
  dimensions: ['pressure'],
  sign: 'positive',
});
export const elevation = amount({ words: 'a height, such as m or [ft_i]', dimensions: ['length'], sign: 'any' });
export const length = amount({
  words: 'a length, such as [in_i], [ft_i] or cm',
  dimensions: ['length'],
  sign: 'positive',
});
export const speed = amount({ words: 'a speed, such as [mi_i]/h or km/h', dimensions: ['speed'], sign: 'positive' });
export const flow = amount({
  words: 'a flow, such as [gal_us]/min, [foz_us]/min or L/min',
  dimensions: ['flow'],
  sign: 'positive',
});
export const volume = amount({ words: 'a volume, such as L or [gal_us]', dimensions: ['volume'], sign: 'positive' });
export const mass = amount({ words: 'a mass, such as kg or [lb_av]', dimensions: ['mass'], sign: 'notNegative' });
export const area = amount({ words: 'an area, such as [acr_us] or har', dimensions: ['area'], sign: 'positive' });
export const areaRate = amount({
  words: 'a volume on an area, such as [gal_us]/[acr_us] or L/har',
  dimensions: ['areaRate'],
  sign: 'positive',
});
export const concentration = amount({
  words: 'a concentration, such as mg/L',
  dimensions: ['concentration'],
  also: ['[ppm]', '[ppb]'],
  sign: 'notNegative',
});

/** An amount in the unit a formula wants. The schema has seen to the dimension, so a miss is a fault of this program. */
export function inUnit(q: Amount, unit: string): number {
  const number = numberIn(q, unit);
  if (number === null) throw new TypeError(`${q.unit} does not convert into ${unit}`);
  return number;
}
