import type { CurrentRecord, Moment } from '@furrowmark/domain';
import { countBefore } from './in-order.ts';

type Cleaning = CurrentRecord<'vessel.cleaned'> | CurrentRecord<'equipment.cleaned'>;

/**
 * The last cleaning, of those in order of time, that surely lies between two times; else the last that may, where a time
 * is uncertain. null: none does.
 */
export function cleanedBetween<T extends Cleaning>(
  cleanings: readonly T[],
  after: Moment,
  before: Moment,
): { readonly cleaning: T; readonly sure: boolean } | null {
  // A thing is cleaned thousands of times: only those about these times are looked at.
  for (let i = countBefore(cleanings, before.from + 1, ({ at }) => at.at) - 1; i >= 0; i -= 1) {
    const cleaning = cleanings[i];
    if (cleaning === undefined || cleaning.at.at < after.to) break;
    if (cleaning.at.from >= after.to && cleaning.at.to <= before.from) return { cleaning, sure: true };
  }
  const maybe = cleanings.findLast(({ at }) => at.to >= after.from && at.from <= before.to);
  return maybe === undefined ? null : { cleaning: maybe, sure: false };
}
