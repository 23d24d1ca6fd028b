import type { Engine } from '../../season/engine.ts';
import { isQuantity } from '../../tank/forms/form.ts';
import { exchanged, outlineIn, ringsIn } from '../field/outline/corners.ts';
import type { RegisterType } from './members.ts';

/** What may well be a slip of the pen, though it can be recorded: the words for it, or null. */
export type Doubt = 'overRim' | 'oddOutline' | null;

/** What is asked of the core. */
export type Asked = Pick<Engine['domain'], 'numberIn' | 'calculations' | 'isRefusal'>;

/** What is doubtful in a registration as it would stand. */
export function doubtIn(type: RegisterType, data: object, domain: Asked): Doubt {
  if (type === 'vessel.registered') return overRim(data, domain) ? 'overRim' : null;
  if (type === 'field.registered') return oddOutline(data, domain) ? 'oddOutline' : null;
  return null;
}

/** Measures of the farm's own do not convert: nothing is said of them. */
function overRim(data: object, { numberIn }: Asked): boolean {
  const [total, working]: readonly unknown[] = ['totalVolume', 'workingVolume'].map((name) => Reflect.get(data, name));
  if (!isQuantity(total) || !isQuantity(working)) return false;
  const used = numberIn(working, total.unit);
  return used !== null && used > total.value;
}

/** An outline that crosses itself, encloses nothing or lies where nothing grows. One that is none is refused anyway. */
function oddOutline(data: object, { calculations, isRefusal }: Asked): boolean {
  const rings = ringsIn(outlineIn(Reflect.get(data, 'boundary')));
  if (rings === null) return false;
  if (rings.some(exchanged)) return true;
  return isRefusal(calculations['field-area'].run({ boundary: { type: 'Polygon', coordinates: rings } }));
}
