import { Decimal, decimal } from './decimal.ts';
import type { Quantity } from './quantity.ts';

/** Looks a registered household measure up by its id. */
export type Measures = (measureId: string) => { readonly equals: Quantity } | undefined;

/**
 * What a quantity is worth in a proper unit: itself, or, for a household measure (a bucket, a scoop, a mark on the
 * tote), the registered worth times the number of measures. null while the measure is not registered.
 */
export function resolveMeasure(
  q: Quantity,
  measures: Measures,
): { readonly value: Decimal; readonly unit: string } | null {
  if (q.unit !== '{measure}') return { value: decimal(q.value), unit: q.unit };
  const equals = q.measureId === undefined ? undefined : measures(q.measureId)?.equals;
  // A measure defined by another measure would have no firm worth.
  if (equals === undefined || equals.unit === '{measure}') return null;
  return { value: decimal(q.value).times(decimal(equals.value)), unit: equals.unit };
}
