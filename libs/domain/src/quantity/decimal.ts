import { Decimal as DecimalJs } from 'decimal.js';

/**
 * Decimal arithmetic of this project: 50 significant digits, so sums, differences and products of recorded numbers
 * (at most 15 digits each) and the exact unit factors come out exact. Only a division can be rounded, at the 50th digit.
 */
export const Decimal = DecimalJs.clone({ precision: 50, rounding: DecimalJs.ROUND_HALF_EVEN });
export type Decimal = DecimalJs;

/** The decimal a number's shortest text says: 0.1 is exactly 0.1, not the binary fraction nearest to it. */
export function decimal(value: number | string | Decimal): Decimal {
  return new Decimal(typeof value === 'number' ? String(value) : value);
}

export const zero: Decimal = decimal(0);
