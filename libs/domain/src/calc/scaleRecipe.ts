import { z } from 'zod';
import { later } from '../later.ts';
import { Decimal, decimal, decimalIn, dimensionOf } from '../quantity/index.ts';
import { plainNumber, volume } from './amounts.ts';
import { calculation, refuse, type Refusal, type Worked } from './calculation.ts';
import { figure } from './figures.ts';

const source = 'Proportion: amount × volume ÷ basis volume';

/** How many times the basis volume a volume is, exact to 50 digits; null where they do not compare. */
export function scaleFactor(
  basisVolume: { readonly value: number | Decimal; readonly unit: string },
  to: { readonly value: number | Decimal; readonly unit: string },
): Decimal | null {
  const basis = decimalIn(basisVolume, 'L');
  const litres = decimalIn(to, 'L');
  return basis === null || litres === null || !basis.gt(0) ? null : litres.div(basis);
}

/** A number that a record can hold: at most 15 significant digits. */
export const recordable = (value: Decimal): number => value.toSignificantDigits(15).toNumber();

const input = later(() =>
  z.strictObject({
    basisVolume: volume(),
    ingredients: z
      .array(
        z.strictObject({
          name: z.string(),
          amount: z.strictObject({
            value: plainNumber().min(0, 'must not be negative'),
            unit: z
              .string()
              .refine((unit) => unit === '{measure}' || dimensionOf(unit) !== null, 'is not a UCUM unit known here'),
            measureId: z.string().optional(),
          }),
        }),
      )
      .max(1000, 'must be at most 1000 ingredients'),
    volume: volume(),
  }),
);

export interface ScaledAnswer extends Worked {
  readonly ingredients: readonly {
    readonly name: string;
    readonly amount: { readonly value: number; readonly unit: string; readonly measureId?: string };
  }[];
  /** Volume ÷ basis volume. */
  readonly factor: number;
}

/** A recipe's amounts for another volume, each in the unit in which it was written. */
export const scaleRecipe = calculation<z.infer<ReturnType<typeof input>>, ScaledAnswer>({
  name: 'scale-recipe',
  title: 'Recipe scaled to a volume',
  source,
  input,
  work: scale,
});

function scale(q: z.infer<ReturnType<typeof input>>): ScaledAnswer | Refusal {
  const factor = scaleFactor(q.basisVolume, q.volume);
  if (factor === null) return refuse(['volume'], 'The two volumes do not compare.');
  return {
    ingredients: q.ingredients.map(({ name, amount }) => ({
      name,
      amount: {
        value: recordable(decimal(amount.value).times(factor)),
        unit: amount.unit,
        ...(amount.measureId === undefined ? {} : { measureId: amount.measureId }),
      },
    })),
    factor: recordable(factor),
    working: [
      `${figure(q.volume.value)} ${q.volume.unit} ÷ ${figure(q.basisVolume.value)} ${q.basisVolume.unit} = ${figure(factor.toNumber())}`,
      'Every amount × that factor',
    ],
    source,
  };
}
