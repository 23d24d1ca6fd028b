import { lb } from './amounts.ts';
import { later, type Stamp } from './calendar.ts';
import type { Farm } from './farm.ts';
import type { Ground } from './ground.ts';

/** Writes a harvest and where it went. Gives the harvest's id. */
export function harvest(
  { diary, people }: Farm,
  code: string,
  at: Stamp,
  from: Ground,
  pounds: number,
  shipments: readonly { readonly to: string; readonly pounds: number; readonly reference: string }[],
): string {
  const harvestId = diary.newId();
  const plantingId = from.plantingId === undefined ? {} : { plantingId: from.plantingId };
  diary.write(
    'harvest.made',
    at,
    { harvestId, code, fieldId: from.fieldId, ...plantingId, quantity: lb(pounds), soldAs: 'organic' },
    { performedBy: people.tobin },
  );
  shipments.forEach(({ to, pounds: part, reference }, index) => {
    const data = { harvestId, quantity: lb(part), to, reference };
    diary.write('harvest.shipped', later(at, 180 + 30 * index), data, { by: 'reviewer' });
  });
  return harvestId;
}
