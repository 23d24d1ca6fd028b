import {
  asOf,
  decimalIn,
  resolveMeasure,
  type Decimal,
  type Instant,
  type Quantity,
  type Season,
} from '@furrowmark/domain';
import { asWritten, brief } from './numbers.ts';
import { unitName, type Telling } from './telling.ts';

/** Looks up what a household measure was worth on a day: a bucket is weighed anew now and then. */
const measuresOf =
  (season: Pick<Season, 'measure'>, on: Instant) =>
  (measureId: string): { readonly name: string; readonly equals: Quantity } | undefined => {
    const known = season.measure(measureId);
    return known && asOf(known, on);
  };

/** A quantity with its household measure at what that was worth on the day; null where nobody knows. */
export const worthOn = (season: Pick<Season, 'measure'>, q: Quantity, on: Instant) =>
  resolveMeasure(q, measuresOf(season, on));

/**
 * A quantity as it was written: `7 lb`, `< 10 CFU/100 mL`, `0–0.5 mg/L`, `0.5 × green bucket, level (7.25 lb)`, the bucket
 * as it was on the day that the quantity is of.
 */
export function quantityText({ season, words }: Pick<Telling, 'season' | 'words'>, q: Quantity, on: Instant): string {
  if (q.unit === '{measure}') {
    const name = q.measureId === undefined ? undefined : measuresOf(season, on)(q.measureId)?.name;
    const worth = worthOn(season, q, on);
    const written = `${asWritten(q.value)} × ${name ?? words.unknownThing(q.measureId?.slice(0, 8) ?? '')}`;
    return worth === null ? written : `${written} (${brief(worth.value, 3)} ${unitName(worth.unit)})`;
  }
  const unit = unitName(q.unit);
  const plain = `${asWritten(q.value)} ${unit}`;
  switch (q.qualifier) {
    case '<':
    case '>':
      return `${q.qualifier} ${plain}`;
    case 'notDetected':
      return words.notDetected(plain);
    case 'between':
      return `${asWritten(q.value)}–${asWritten(q.high ?? q.value)} ${unit}`;
    case undefined:
      return plain;
  }
}

/** Litres in the operation's own unit of volume. */
export const inOwnVolume = (telling: Telling, litres: Decimal | null): Decimal | null =>
  litres === null ? null : decimalIn({ value: litres, unit: 'L' }, telling.volumeUnit);

/** `290 gal` from litres; in words where not known. */
export function litresText(telling: Telling, litres: Decimal | null): string {
  const own = inOwnVolume(telling, litres);
  return own === null ? telling.words.notRecorded : `${brief(own, 1)} ${unitName(telling.volumeUnit)}`;
}
