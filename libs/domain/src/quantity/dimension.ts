/** Powers of metre, kilogram, second, kelvin, ampere and of counted things. */
export type Base = 'm' | 'kg' | 's' | 'K' | 'A' | `{${string}}`;
export type Exponents = Readonly<Partial<Record<Base, number>>>;

/** What a unit measures: a named dimension, else the base units with their powers, such as `kg1.m-2`. */
export type Dimension = NamedDimension | (string & Record<never, never>);

export type NamedDimension =
  | 'number'
  | 'count'
  | 'volume'
  | 'mass'
  | 'area'
  | 'length'
  | 'time'
  | 'temperature'
  | 'speed'
  | 'flow'
  | 'massFlow'
  | 'areaRate'
  | 'massPerArea'
  | 'pressure'
  | 'concentration'
  | 'volumePerVolume'
  | 'volumePerMass'
  | 'uptake'
  | 'conductivity'
  | 'acidity'
  | 'organismsPerVolume'
  | 'organismsPerMass';

const named: ReadonlyMap<string, NamedDimension> = new Map<string, NamedDimension>([
  ['', 'number'],
  ['m3', 'volume'],
  ['kg1', 'mass'],
  ['m2', 'area'],
  ['m1', 'length'],
  ['s1', 'time'],
  ['K1', 'temperature'],
  ['m1.s-1', 'speed'],
  ['m3.s-1', 'flow'],
  ['kg1.s-1', 'massFlow'],
  ['kg1.m-2', 'massPerArea'],
  ['kg1.m-1.s-2', 'pressure'],
  ['kg1.m-3', 'concentration'],
  ['kg-1.m3', 'volumePerMass'],
  ['kg1.m-3.s-1', 'uptake'],
  ['A2.kg-1.m-3.s3', 'conductivity'],
  ['m-3.{organism}1', 'organismsPerVolume'],
  ['kg-1.{organism}1', 'organismsPerMass'],
]);

export const none: Exponents = {};

const bases = (e: Exponents): Base[] => Object.keys(e).filter(isBase);
const isBase = (key: string): key is Base =>
  key === 'm' || key === 'kg' || key === 's' || key === 'K' || key === 'A' || key.startsWith('{');

/** `a · b^power`. A power of 0 stays and counts as absent. */
export function times(a: Exponents, b: Exponents, power = 1): Exponents {
  const product: Partial<Record<Base, number>> = { ...a };
  for (const base of bases(b)) product[base] = (product[base] ?? 0) + (b[base] ?? 0) * power;
  return product;
}

/** One text for equal powers, whatever their order: `kg1.m-3`. */
export function canonical(e: Exponents): string {
  return bases(e)
    .filter((base) => e[base] !== 0)
    .sort()
    .map((base) => `${base}${e[base] ?? 0}`)
    .join('.');
}

/**
 * The name of a dimension. Litres per hectare have the powers of a length (a depth of water); `below`, what stands
 * under the fraction bar, tells a rate on an area and a dilution apart from a depth and a plain number.
 */
export function nameOf(powers: Exponents, below: Exponents): Dimension {
  const text = canonical(powers);
  const under = canonical(below);
  if (text === 'm1' && under === 'm2') return 'areaRate';
  if (text === '' && under === 'm3') return 'volumePerVolume';
  if (text === '{pH}1') return 'acidity';
  if (text.startsWith('{') && text.endsWith('}1')) return 'count';
  return named.get(text) ?? text;
}
