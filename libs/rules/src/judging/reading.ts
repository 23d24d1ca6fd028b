import { milligramsPerLitre, numberIn, type Quantity } from '@furrowmark/domain';
import { say, type Said } from '../words/index.ts';

/**
 * Bounds within which the true value lies: a strip between two pads, a result below a detection limit. A bound belongs
 * to them unless it is open: "below 6" is not 6.
 */
export interface Bounds {
  readonly least: number;
  readonly most: number;
  readonly open?: 'least' | 'most';
}

/** Whether the true value is surely above a limit; 'not sure' is neither this nor `most <= limit`. */
export const surelyAbove = ({ least, open }: Bounds, limit: number): boolean =>
  least > limit || (least === limit && open === 'least');

/** Whether the true value is surely below a limit. */
export const surelyBelow = ({ most, open }: Bounds, limit: number): boolean =>
  most < limit || (most === limit && open === 'most');

/** What a lab or meter value says about the true one; `in_` converts, null where the unit does not fit. */
export function boundsOf(quantity: Quantity, in_: (value: number, unit: string) => number | null): Bounds | null {
  const value = in_(quantity.value, quantity.unit);
  if (value === null) return null;
  switch (quantity.qualifier) {
    case undefined:
      return { least: value, most: value };
    case '<':
    case 'notDetected':
      return { least: 0, most: value, open: 'most' };
    case '>':
      return { least: value, most: Infinity, open: 'least' };
    case 'between': {
      const high = quantity.high === undefined ? null : in_(quantity.high, quantity.unit);
      return { least: value, most: high ?? Infinity };
    }
  }
}

/** Bounds in mg/L. */
export const milligramBounds = (quantity: Quantity): Bounds | null =>
  boundsOf(quantity, (value, unit) => milligramsPerLitre({ value, unit })?.toNumber() ?? null);

/** Bounds in a UCUM unit. */
export const boundsIn = (quantity: Quantity, unit: string): Bounds | null =>
  boundsOf(quantity, (value, from) => numberIn({ value, unit: from }, unit));

/** `0.2 mg/L`, `below 0.5 mg/L`, `between 0 and 0.5 mg/L`, as written. */
export function readingWords({ value, unit: code, qualifier, high }: Quantity): Said {
  const unit = unitWords(code);
  switch (qualifier) {
    case undefined:
      return say('reading.exactly', { value, unit });
    case '<':
      return say('reading.below', { value, unit });
    case '>':
      return say('reading.above', { value, unit });
    case 'notDetected':
      return say('reading.notDetected', { value, unit });
    case 'between':
      return say('reading.between', { value, high: high ?? '?', unit });
  }
}

const unitNames: Readonly<Record<string, string>> = {
  '[gal_us]': 'gal',
  '[lb_av]': 'lb',
  '[oz_av]': 'oz',
  '[degF]': '°F',
  Cel: '°C',
  '[acr_us]': 'acres',
  '[ppm]': 'ppm',
  '[cyd_i]': 'yd³',
  '[foz_us]': 'fl oz',
  '[qt_us]': 'qt',
  '[pt_us]': 'pt',
  '{CFU}/(100.mL)': 'CFU/100 mL',
  '{MPN}/(100.mL)': 'MPN/100 mL',
};

/** A UCUM code as people say it, where they say it differently; the same in both languages. */
export const unitWords = (unit: string): string => unitNames[unit] ?? unit.replaceAll(/[{}]/g, '');
