import { Decimal, decimal } from '@furrowmark/domain';
import type { Cell } from '../content.ts';

/** `1,097.84`: digits grouped by commas, point before the decimals, as English and North American Spanish write. */
export function grouped(text: string): string {
  const [whole = '', decimals] = text.replace(/^-/, '').split('.');
  const sign = text.startsWith('-') ? '−' : '';
  const groups = whole.replace(/\B(?=(\d{3})+$)/g, ',');
  return `${sign}${groups}${decimals === undefined ? '' : `.${decimals}`}`;
}

/** A number as it was written down: its shortest text, grouped. */
export const asWritten = (value: number | Decimal): string => grouped(decimal(value).toFixed());

/**
 * Rounded half away from zero to so many places, as a person would. Records carry at most 15 significant digits; what a
 * conversion there and back leaves behind those is no part of the figure, and must not turn 36.25 into 36.2.
 */
export const rounded = (value: number | Decimal, places: number): Decimal =>
  decimal(value).toSignificantDigits(15).toDecimalPlaces(places, Decimal.ROUND_HALF_UP);

/** A cell with a number to fixed places; what is printed and what is carried as data are the same. */
export function numberCell(value: number | Decimal | null, places: number, missing: string): Cell {
  if (value === null) return { text: missing, value: null };
  const printed = rounded(value, places);
  // Adding 0 makes a negative zero a plain one: JSON has only that.
  return { text: grouped(printed.toFixed(places)), value: printed.toNumber() + 0 };
}

/** The sum of numbers as printed, so that anyone adding up the page gets the printed total. */
export function sumCell(cells: readonly (Cell | undefined)[], places: number): Cell {
  let sum = decimal(0);
  for (const cell of cells) if (typeof cell?.value === 'number') sum = sum.plus(decimal(cell.value));
  return numberCell(sum, places, '');
}

/**
 * Rounds parts of a whole so that the printed parts add up to the whole as printed: each is cut, and the last places
 * left over go to those that were cut most (largest remainder). None differs from its exact value by a whole last place.
 */
export function apportioned(parts: readonly number[], places: number): number[] {
  const exact = parts.map((part) => decimal(part));
  const total = rounded(
    exact.reduce((a, b) => a.plus(b), decimal(0)),
    places,
  );
  const cut = exact.map((part) => part.toDecimalPlaces(places, Decimal.ROUND_FLOOR));
  const step = decimal(1).div(decimal(10).pow(places));
  const missing = total
    .minus(cut.reduce((a, b) => a.plus(b), decimal(0)))
    .div(step)
    .round()
    .toNumber();
  const order = exact
    .map((part, index) => ({ index, remainder: part.minus(cut[index] ?? 0) }))
    .sort((a, b) => b.remainder.cmp(a.remainder) || a.index - b.index);
  const raised = new Set(order.slice(0, missing).map(({ index }) => index));
  return cut.map((part, index) => (raised.has(index) ? part.plus(step) : part).toNumber());
}

/** At most so many places, trailing zeros left off: for text. */
export const brief = (value: number | Decimal, places: number): string => grouped(rounded(value, places).toFixed());
