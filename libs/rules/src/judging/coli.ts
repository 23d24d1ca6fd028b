import { decimalIn, type CurrentRecord, type Quantity } from '@furrowmark/domain';

/** What one water test says of generic E. coli in 100 mL. */
export type Coli = 'notDetected' | 'detected' | 'cannotTell' | 'pending';

const isColi = (analyte: string): boolean => /^(generic\s+)?e(\.|scherichia)?\s*coli$/i.test(analyte.trim());

/** The number of a result in 100 mL; a bare number or `{CFU}` is read as given in 100 mL. null where the unit is another. */
function per100mL(value: number, unit: string): number | null {
  const parts = /^\{[^}]*\}(?:\/(.+))?$/.exec(unit);
  if (unit === '1' || (parts !== null && parts[1] === undefined)) return value;
  const volume = /^\(?(\d+)?\.?(mL|dL|L)\)?$/.exec(parts?.[1] ?? '');
  if (volume === null) return null;
  const mL = decimalIn({ value: Number(volume[1] ?? 1), unit: volume[2] ?? 'mL' }, 'mL');
  return mL === null ? null : (value * 100) / mL.toNumber();
}

/** A single result: any at all is detected; a detection limit above 1 in 100 mL cannot tell. */
export function coliResult({ value, unit, qualifier }: Quantity): Exclude<Coli, 'pending'> {
  const inHundred = per100mL(value, unit);
  switch (qualifier) {
    case '<':
    case 'notDetected':
      return inHundred !== null && inHundred <= 1 ? 'notDetected' : 'cannotTell';
    case '>':
      return 'detected';
    case 'between':
      return value > 0 ? 'detected' : 'cannotTell';
    case undefined:
      return value > 0 ? 'detected' : 'notDetected';
  }
}

/** A test's word on E. coli: the worst single result counts, nothing is averaged. `pending` while there is no result. */
export function coliOf(test: CurrentRecord<'source.tested'>): Coli | null {
  if (test.data.results.length === 0) return 'pending';
  const results = test.data.results.filter(({ analyte }) => isColi(analyte)).map(({ value }) => coliResult(value));
  if (results.length === 0) return null;
  return results.includes('detected') ? 'detected' : results.includes('cannotTell') ? 'cannotTell' : 'notDetected';
}
