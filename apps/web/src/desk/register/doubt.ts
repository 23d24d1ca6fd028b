import type { Quantity } from '@furrowmark/domain';
import { isQuantity } from '../../tank/forms/form.ts';
import type { RegisterType } from './members.ts';

/** What may well be a slip of the pen, though it can be recorded: the words for it, or null. */
export type Doubt = 'overRim' | null;

/** A quantity's value in another unit; null where it does not convert, as with a measure of the farm's own. */
export type NumberIn = (quantity: Quantity, unit: string) => number | null;

/** What is doubtful in a registration as it would stand. */
export function doubtIn(type: RegisterType, data: object, numberIn: NumberIn): Doubt {
  if (type !== 'vessel.registered') return null;
  const [total, working]: readonly unknown[] = ['totalVolume', 'workingVolume'].map((name) => Reflect.get(data, name));
  if (!isQuantity(total) || !isQuantity(working)) return null;
  const used = numberIn(working, total.unit);
  return used !== null && used > total.value ? 'overRim' : null;
}
