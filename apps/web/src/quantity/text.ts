import type { Quantity } from '@furrowmark/domain';
import type { Units } from '../session/settings.ts';
import type { Language } from '../words/catalogue.ts';
import type { Engine } from '../season/engine.ts';

/** How a UCUM code is read by people. */
const names: Readonly<Record<string, { readonly en: string; readonly es: string }>> = {
  '[gal_us]': { en: 'gal', es: 'gal' },
  '[qt_us]': { en: 'qt', es: 'cuarto' },
  '[foz_us]': { en: 'fl oz', es: 'oz líq.' },
  '[cup_us]': { en: 'cup', es: 'taza' },
  '[cyd_i]': { en: 'yd³', es: 'yd³' },
  '[lb_av]': { en: 'lb', es: 'lb' },
  '[oz_av]': { en: 'oz', es: 'oz' },
  '[acr_us]': { en: 'ac', es: 'ac' },
  '[sft_i]': { en: 'ft²', es: 'ft²' },
  '[ft_i]': { en: 'ft', es: 'ft' },
  '[in_i]': { en: 'in', es: 'in' },
  '[degF]': { en: '°F', es: '°F' },
  Cel: { en: '°C', es: '°C' },
  har: { en: 'ha', es: 'ha' },
  m2: { en: 'm²', es: 'm²' },
  m3: { en: 'm³', es: 'm³' },
  '[ppm]': { en: 'ppm', es: 'ppm' },
  'mS/cm': { en: 'mS/cm', es: 'mS/cm' },
  '{CFU}/(100.mL)': { en: 'CFU/100 mL', es: 'UFC/100 mL' },
  '{measure}': { en: 'measures', es: 'medidas' },
  d: { en: 'd', es: 'd' },
};

export const unitText = (unit: string, language: Language): string => names[unit]?.[language] ?? unit;

/** A number as it was written, with the language's decimal sign. */
export function numberText(value: number, language: Language): string {
  const text = String(value);
  return language === 'es' ? text.replace('.', ',') : text;
}

/** To a few significant digits, for what was computed or converted. */
export const roundText = (value: number, language: Language, digits = 3): string =>
  numberText(Number(value.toPrecision(digits)), language);

/** To so many places at most, for amounts that are added up: a reader who does so gets the sum that is shown. */
export const placesText = (value: number, language: Language, places: number): string =>
  numberText(Number(value.toFixed(places)), language);

/** `280 gal`, `< 0,1 mg/L`, `0–0.5 mg/L`, as written. */
export function quantityText(quantity: Quantity, language: Language): string {
  const { value, unit, qualifier, high } = quantity;
  const n = (x: number): string => numberText(x, language);
  const u = unitText(unit, language);
  switch (qualifier) {
    case '<':
    case '>':
      return `${qualifier} ${n(value)} ${u}`;
    case 'notDetected':
      return `${language === 'es' ? 'no detectado' : 'not detected'} (< ${n(value)} ${u})`;
    case 'between':
      return `${n(value)}–${n(high ?? value)} ${u}`;
    case undefined:
      return `${n(value)} ${u}`;
  }
}

const other: Readonly<Record<'us' | 'metric', Readonly<Record<string, string>>>> = {
  us: {
    L: '[gal_us]',
    mL: '[foz_us]',
    m3: '[gal_us]',
    kg: '[lb_av]',
    g: '[oz_av]',
    har: '[acr_us]',
    m2: '[sft_i]',
    Cel: '[degF]',
    m: '[ft_i]',
  },
  metric: {
    ...{
      '[gal_us]': 'L',
      '[qt_us]': 'L',
      '[foz_us]': 'mL',
      '[cup_us]': 'mL',
      '[cyd_i]': 'm3',
      '[lb_av]': 'kg',
      '[oz_av]': 'g',
    },
    ...{ '[acr_us]': 'har', '[sft_i]': 'm2', '[degF]': 'Cel', '[ft_i]': 'm', '[in_i]': 'm' },
  },
};

/** As written, and in brackets the other system where the person asked for it; a household measure by its name. */
export function shownQuantity(
  quantity: Quantity,
  language: Language,
  units: Units,
  engine: Engine,
  measure?: string,
): string {
  if (measure !== undefined) return `${numberText(quantity.value, language)} × ${measure}`;
  const written = quantityText(quantity, language);
  const to = units === 'asWritten' ? undefined : other[units][quantity.unit];
  if (to === undefined) return written;
  const value = engine.domain.numberIn(quantity, to);
  return value === null ? written : `${written} (${roundText(value, language)} ${unitText(to, language)})`;
}
