import { dimensionOf, type NamedDimension } from '../quantity/index.ts';

/** Codes to propose for what is measured, the usual one first. */
const USUAL: Readonly<Partial<Record<NamedDimension, readonly string[]>>> = {
  volume: ['[gal_us]', '[qt_us]', '[pt_us]', '[cup_us]', '[foz_us]', '[cyd_i]', 'L', 'mL', 'm3'],
  mass: ['[lb_av]', '[oz_av]', '[ston_av]', 'kg', 'g', 'mg', 't'],
  area: ['[acr_us]', '[sft_i]', '[syd_i]', 'har', 'm2'],
  length: ['[ft_i]', '[in_i]', '[yd_i]', '[mi_i]', 'm', 'cm', 'mm'],
  time: ['h', 'min', 's', 'd', 'wk'],
  temperature: ['[degF]', 'Cel', 'K'],
  speed: ['[mi_i]/h', 'km/h', 'm/s', '[ft_i]/min'],
  flow: ['[gal_us]/min', '[foz_us]/min', 'L/min', 'mL/min'],
  conductivity: ['mS/cm', 'uS/cm', 'dS/m'],
  concentration: ['mg/L', 'ug/L', '[ppm]'],
  count: ['{count}', '{tray}', '{bunch}'],
  organismsPerVolume: ['{CFU}/(100.mL)', '{MPN}/(100.mL)'],
};

/** What people write and the UCUM code that says it. Several codes: the first that measures the right thing. */
const SAID: ReadonlyMap<string, readonly string[]> = new Map([
  ...saying(['[gal_us]'], 'gal', 'gals', 'gallon', 'gallons', 'usgal', '[gal]'),
  ...saying(['[qt_us]'], 'qt', 'quart', 'quarts'),
  ...saying(['[pt_us]'], 'pt', 'pint', 'pints'),
  ...saying(['[cup_us]'], 'cup', 'cups'),
  ...saying(['[tbs_us]'], 'tbsp', 'tablespoon', 'tablespoons'),
  ...saying(['[tsp_us]'], 'tsp', 'teaspoon', 'teaspoons'),
  ...saying(['[oz_av]', '[foz_us]'], 'oz', 'ounce', 'ounces'),
  ...saying(['[foz_us]'], 'floz', 'fl oz', 'fluid ounce', 'fluid ounces'),
  ...saying(['[cyd_i]'], 'yd3', 'cu yd', 'cubic yard', 'cubic yards', 'yard', 'yards'),
  ...saying(['[lb_av]'], 'lb', 'lbs', 'pound', 'pounds', '[lb]'),
  ...saying(['[ston_av]'], 'ton', 'tons'),
  ...saying(['L'], 'litre', 'liter', 'litres', 'liters', 'ltr'),
  ...saying(['mL'], 'ml', 'cc'),
  ...saying(['kg'], 'kgs', 'kilo', 'kilos', 'kilogram', 'kilograms'),
  ...saying(['g'], 'gram', 'grams', 'gr'),
  ...saying(['[acr_us]'], 'ac', 'acre', 'acres'),
  ...saying(['har'], 'ha', 'hectare', 'hectares'),
  ...saying(['[sft_i]'], 'sqft', 'sq ft', 'ft2', 'square feet'),
  ...saying(['m2'], 'sqm', 'm²'),
  ...saying(['[ft_i]'], 'ft', 'foot', 'feet', '[ft_us]'),
  ...saying(['[in_i]'], 'in', 'inch', 'inches'),
  ...saying(['[mi_i]/h'], 'mph'),
  ...saying(['km/h'], 'kph', 'kmh'),
  ...saying(['[gal_us]/min'], 'gpm', 'gal/min'),
  ...saying(['[degF]'], 'f', '°f', 'degf', 'fahrenheit'),
  ...saying(['Cel'], 'c', '°c', 'degc', 'celsius'),
  ...saying(['h'], 'hr', 'hrs', 'hour', 'hours'),
  ...saying(['min'], 'minute', 'minutes', 'mins'),
  ...saying(['d'], 'day', 'days'),
  ...saying(['mg/L', '[ppm]'], 'ppm', 'mg/l', 'mg/liter'),
  ...saying(['mS/cm'], 'ms', 'ms/cm', 'ec'),
  ...saying(['uS/cm'], 'µs/cm', 'us/cm'),
  ...saying(['{CFU}/(100.mL)'], 'cfu', 'cfu/100ml', 'cfu/100 ml', '{cfu}/100ml', '{cfu}/100.ml'),
  ...saying(['{MPN}/(100.mL)'], 'mpn', 'mpn/100ml', 'mpn/100 ml', '{mpn}/100ml', '{mpn}/100.ml'),
]);

function saying(codes: readonly string[], ...words: string[]): [string, readonly string[]][] {
  return words.map((word) => [word, codes]);
}

/** Codes that the remedy names for the dimensions wanted; any dimension where none is named. */
const usual = (dimensions: readonly NamedDimension[]): string =>
  dimensions.flatMap((dimension) => USUAL[dimension] ?? []).join(', ');

/**
 * The UCUM code that a unit means, written as a code or as people write it (`lbs`, `°F`), where one of the dimensions is
 * wanted; null where it means none.
 */
export function unitMeant(written: string, dimensions: readonly NamedDimension[]): string | null {
  const text = written.trim();
  const dimension = dimensionOf(text);
  if (dimension !== null && fits(text, dimensions)) return text;
  return SAID.get(text.toLowerCase())?.find((code) => fits(code, dimensions)) ?? null;
}

/** Why a unit is refused, and what to write instead. */
export function unitRemedy(unit: string, dimensions: readonly NamedDimension[] | null): string {
  const measured = dimensionOf(unit);
  const said = SAID.get(unit.trim().toLowerCase()) ?? [];
  const better = said.find((code) => dimensions === null || fits(code, dimensions)) ?? null;
  const what =
    measured !== null && dimensions !== null
      ? `“${unit}” does not measure ${listed(dimensions)}`
      : `“${unit}” is not a known UCUM code`;
  if (better !== null) return `${what}: use the UCUM code ${better}`;
  if (dimensions !== null) return `${what}: use a UCUM code such as ${usual(dimensions)}`;
  return `${what}: use a UCUM code such as mg/L, [degF], [gal_us], {CFU}/(100.mL)`;
}

const fits = (code: string, dimensions: readonly NamedDimension[]): boolean =>
  dimensions.some((dimension) => USUAL[dimension]?.includes(code) === true || dimension === dimensionOf(code));

const listed = (dimensions: readonly NamedDimension[]): string =>
  dimensions
    .filter((dimension) => dimension !== 'number')
    .map((dimension) => dimension.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`))
    .join(' or ');

/** Every code that a remedy may propose, for whoever checks them against the converter. */
export const proposedCodes = (): string[] => [
  ...new Set([...Object.values(USUAL).flat(), ...[...SAID.values()].flat()]),
];
