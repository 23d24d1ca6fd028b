import { z } from 'zod';
import { later } from '../later.ts';
import { convert, decimalIn, dimensionOf, type Quantity } from '../quantity/index.ts';
import { plainNumber } from './amounts.ts';
import { calculation, refuse, type Refusal, type Worked } from './calculation.ts';
import { figure } from './figures.ts';

const source =
  'Factors of NIST Handbook 44, Appendix C, under the codes of UCUM 2.1 ([acr_us] is the US survey acre; the international acre is 43560.[sft_i])';

const input = later(() =>
  z.strictObject({
    quantity: z.strictObject({
      value: plainNumber(),
      unit: z.string(),
      qualifier: z.enum(['<', '>', 'notDetected', 'between']).optional(),
      high: plainNumber().optional(),
    }),
    to: z.string(),
  }),
);

export interface ConvertAnswer extends Worked {
  readonly quantity: Quantity;
}

/** A quantity in another unit. */
export const convertQuantity = calculation<z.infer<ReturnType<typeof input>>, ConvertAnswer>({
  name: 'convert',
  title: 'Unit conversion',
  source,
  input,
  work: ({ quantity, to }): ConvertAnswer | Refusal => {
    const found = convert(quantity, to);
    if (found.kind === 'notConvertible') {
      return refuse(dimensionOf(quantity.unit) === null ? ['quantity', 'unit'] : ['to'], found.detail);
    }
    if (dimensionOf(to) === 'temperature') {
      const kelvin = decimalIn(quantity, 'K');
      if (kelvin !== null && kelvin.lt(0)) return refuse(['quantity', 'value'], 'Colder than absolute zero.');
    }
    return {
      quantity: found.quantity,
      working: [`${figure(quantity.value)} ${quantity.unit} = ${figure(found.quantity.value, 10)} ${to}`],
      source,
    };
  },
});
