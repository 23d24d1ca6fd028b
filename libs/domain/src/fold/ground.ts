import { startOfDay } from '../calendar/date.ts';
import type { Harvest, Planting } from '../facts/types.ts';
import { asOf } from '../facts/asOf.ts';
import { within } from './moments.ts';
import type { Registers } from './registers.ts';
import type { Store } from './store.ts';

/** Fields and what stood and was harvested on them. */
export function ground(store: Store, registers: Registers, timeZone: () => string) {
  const planting = store.memo.view('planting', (id): Planting | undefined => {
    const started = store.naming('planting.started', id).findLast((each) => each.data.plantingId === id);
    if (started === undefined) return undefined;
    const ended = store.naming('planting.ended', id).at(-1);
    const { plantedOn } = started.data;
    const day = plantedOn?.length === 4 ? `${plantedOn}-01-01` : plantedOn;
    return {
      id: started.data.plantingId,
      started,
      ...(ended === undefined ? {} : { ended }),
      standsFrom: day === undefined ? started.at.at : startOfDay(day, timeZone()),
      standsUntil: ended?.at.at ?? null,
    };
  });

  const harvest = store.memo.view('harvest', (id): Harvest | undefined => {
    const records = store.naming('harvest.made', id).filter((each) => each.data.harvestId === id);
    const record = records.at(-1);
    if (record === undefined) return undefined;
    return {
      id: record.data.harvestId,
      code: record.data.code,
      record,
      rivals: records.slice(0, -1).map((each) => each.id),
      at: within(record, record.data.finishedAt),
      fieldId: record.data.fieldId,
      plantingId: record.data.plantingId ?? null,
      shipments: store.naming('harvest.shipped', id),
    };
  });

  const parents = store.memo.view('parents', (): ReadonlyMap<string, ReadonlySet<string>> => {
    const found = new Map<string, Set<string>>();
    for (const field of registers.fields()) {
      // A bed that was moved under another field belonged to both.
      const over = [field.registered, ...field.revisions.map((each) => asOf(field, each.from))];
      const ids = over.flatMap((each) => (each.parentId === undefined ? [] : [each.parentId]));
      if (ids.length > 0) found.set(field.id, new Set(ids));
    }
    return found;
  });

  const children = store.memo.view('children', (): ReadonlyMap<string, ReadonlySet<string>> => {
    const found = new Map<string, Set<string>>();
    for (const [child, over] of parents('')) {
      for (const parent of over) found.set(parent, (found.get(parent) ?? new Set()).add(child));
    }
    return found;
  });

  const sameGround = store.memo.view('sameGround', (id): ReadonlySet<string> => {
    return new Set([...reach(id, parents('')), ...reach(id, children(''))]);
  });

  return { planting, harvest, sameGround };
}

export type Ground = ReturnType<typeof ground>;

function reach(id: string, next: ReadonlyMap<string, ReadonlySet<string>>): ReadonlySet<string> {
  const reached = new Set([id]);
  for (const each of reached) for (const further of next.get(each) ?? []) reached.add(further);
  return reached;
}
