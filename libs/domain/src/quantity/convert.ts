import { commensurable } from './atoms.ts';
import { Decimal, decimal } from './decimal.ts';
import type { Dimension } from './dimension.ts';
import type { Quantity } from './quantity.ts';
import { temperatureScale, unitOf } from './unit.ts';

/** What a UCUM code measures; null where the code is not one of this project's. */
export function dimensionOf(unit: string): Dimension | null {
  return unitOf(unit)?.dimension ?? null;
}

interface Ratio {
  readonly above: Decimal;
  readonly below: Decimal;
}
const ratios = new Map<string, Ratio | null>();
const mostRatios = 5000;

/** From one unit to another, as an exact ratio; null where they do not measure the same thing. */
function ratio(from: string, to: string): Ratio | null {
  const key = `${from} ${to}`;
  const before = ratios.get(key);
  if (before !== undefined) return before;
  const [a, b] = [unitOf(from), unitOf(to)];
  const found =
    a === null || b === null || !commensurable(a, b)
      ? null
      : { above: a.above.times(b.below), below: a.below.times(b.above) };
  if (ratios.size >= mostRatios) ratios.clear();
  ratios.set(key, found);
  return found;
}

function temperature(value: Decimal, from: string, to: string): Decimal | null {
  const [a, b] = [temperatureScale(from), temperatureScale(to)];
  if (a === undefined || b === undefined) return null;
  return value.plus(a.offset).times(a.above).times(b.below).div(decimal(a.below).times(b.above)).minus(b.offset);
}

/**
 * An amount in another unit, exact as far as it has a finite decimal (else to 50 digits). null where the units do not
 * measure the same thing, a code is unknown, or the amount is a household measure that was not resolved.
 */
export function decimalIn(
  amount: { readonly value: number | Decimal; readonly unit: string },
  to: string,
): Decimal | null {
  const value = decimal(amount.value);
  if (amount.unit === to) return unitOf(to) === null ? null : value;
  if (temperatureScale(amount.unit) !== undefined || temperatureScale(to) !== undefined) {
    return temperature(value, amount.unit, to);
  }
  const factor = ratio(amount.unit, to);
  return factor === null ? null : value.times(factor.above).div(factor.below);
}

/** The same as a plain number, the nearest there is; null likewise. */
export function numberIn(
  amount: { readonly value: number | Decimal; readonly unit: string },
  to: string,
): number | null {
  return decimalIn(amount, to)?.toNumber() ?? null;
}

/** Volume in litres; null where it is not a volume. */
export const litres = (q: { readonly value: number | Decimal; readonly unit: string }): Decimal | null =>
  decimalIn(q, 'L');
/** Mass in kilograms; null where it is not a mass. */
export const kilograms = (q: { readonly value: number | Decimal; readonly unit: string }): Decimal | null =>
  decimalIn(q, 'kg');

/**
 * Concentration in mg/L. `[ppm]` counts as mg/L, as meters and strips for water use it (1 L of dilute water taken as
 * 1 kg: common practice); UCUM itself does not equate them, so `decimalIn` does not either.
 */
export function milligramsPerLitre(q: { readonly value: number | Decimal; readonly unit: string }): Decimal | null {
  return q.unit === '[ppm]' ? decimal(q.value) : q.unit === '[ppb]' ? decimal(q.value).div(1000) : decimalIn(q, 'mg/L');
}

export type Conversion =
  | { readonly kind: 'converted'; readonly quantity: Quantity }
  | { readonly kind: 'notConvertible'; readonly detail: string };

/** A quantity in another unit, with its qualifier and upper end; or in words why not. */
export function convert(q: Quantity, to: string): Conversion {
  const value = numberIn(q, to);
  if (value === null) return { kind: 'notConvertible', detail: whyNot(q.unit, to) };
  const high = q.high === undefined ? null : numberIn({ value: q.high, unit: q.unit }, to);
  return {
    kind: 'converted',
    quantity: {
      value,
      unit: to,
      ...(q.qualifier === undefined ? {} : { qualifier: q.qualifier }),
      ...(high === null ? {} : { high }),
    },
  };
}

function whyNot(from: string, to: string): string {
  if (from === '{measure}' || to === '{measure}') {
    return 'A household measure is worth what its registration says; give its weight or volume instead.';
  }
  for (const code of [from, to]) {
    if (dimensionOf(code) === null) return `“${code}” is not a UCUM unit known here.`;
  }
  return `“${from}” measures ${words(dimensionOf(from))}, “${to}” measures ${words(dimensionOf(to))}: one cannot be turned into the other.`;
}

const words = (dimension: Dimension | null): string =>
  (dimension ?? 'nothing known').replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
