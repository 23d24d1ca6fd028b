export * from './quantity.ts';
export { Decimal, decimal, zero } from './decimal.ts';
export type { Dimension, NamedDimension } from './dimension.ts';
export {
  convert,
  decimalIn,
  dimensionOf,
  kilograms,
  litres,
  milligramsPerLitre,
  numberIn,
  type Conversion,
} from './convert.ts';
export { resolveMeasure, type Measures } from './measure.ts';
