import { decimalIn, dimensionOf, type Decimal, type Instant, type Quantity, type Season } from '@furrowmark/domain';
import { worthOn } from '../../telling/index.ts';

/** UCUM codes and the codes for the same units in UNECE Recommendation 20, which EPCIS takes as `uom`. */
export const uneceCodes: Readonly<Record<string, string>> = {
  L: 'LTR',
  mL: 'MLT',
  m3: 'MTQ',
  '[gal_us]': 'GLL',
  '[qt_us]': 'QTL',
  '[pt_us]': 'PTL',
  '[foz_us]': 'OZA',
  '[cup_us]': 'G21',
  '[tbs_us]': 'G24',
  '[tsp_us]': 'G25',
  '[gal_br]': 'GLI',
  '[cyd_i]': 'YDQ',
  '[cft_i]': 'FTQ',
  '[cin_i]': 'INQ',
  kg: 'KGM',
  g: 'GRM',
  mg: 'MGM',
  t: 'TNE',
  '[lb_av]': 'LBR',
  '[oz_av]': 'ONZ',
  '[ston_av]': 'STN',
  '[lton_av]': 'LTN',
};

const ucumCodes = new Map(Object.entries(uneceCodes).map(([ucum, unece]) => [unece, ucum]));

/** The UCUM code of a unit as EPCIS writes it. */
export const ucumOf = (uom: string): string | undefined => ucumCodes.get(uom);

/** An amount as EPCIS writes it; without `uom` it is a count of things. */
export interface Amount {
  readonly quantity: number;
  readonly uom?: string;
}

/** Digits that survive JSON and every reader; amounts computed from shares have many more. */
const plain = (value: Decimal): number => value.toSignificantDigits(12).toNumber();

/** A worth in a unit as EPCIS writes it; null where it has no code and cannot be turned into one that has. */
export function amountOf(value: Decimal, unit: string): Amount | null {
  const code = uneceCodes[unit];
  if (code !== undefined) return { quantity: plain(value), uom: code };
  const dimension = dimensionOf(unit);
  if (dimension === 'count' || dimension === 'number') return { quantity: plain(value) };
  const common = dimension === 'volume' ? 'L' : dimension === 'mass' ? 'kg' : null;
  const converted = common === null ? null : decimalIn({ value, unit }, common);
  return converted === null || common === null
    ? null
    : { quantity: plain(converted), uom: common === 'L' ? 'LTR' : 'KGM' };
}

/** A quantity as written, household measures by what they were worth on the day; null where that cannot be told. */
export function written(season: Season, quantity: Quantity, on: Instant): Amount | null {
  const worth = worthOn(season, quantity, on);
  return worth === null ? null : amountOf(worth.value, worth.unit);
}

export const litresOf = (litres: Decimal | null): Amount | null => (litres === null ? null : amountOf(litres, 'L'));
