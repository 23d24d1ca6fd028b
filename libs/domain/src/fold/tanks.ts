import { comparePlaces, compareIds, type Place } from '../order.ts';
import { rankOf } from '../records/catalogue.ts';
import type { CurrentRecord } from '../records/record.ts';
import type { Moment } from '../facts/time.ts';
import { type Load, type Loads, tankOfRest } from './applications.ts';
import { within } from './moments.ts';
import type { Stock } from './stock.ts';
import type { Store } from './store.ts';
import { runTanks, type TankEvent, type TankHistory } from './tank.ts';

/** The kept histories of tanks. Batches between which tea was carried over are run together. */
export function tanks(store: Store, stock: Stock, { loadsOf, batchOfDraw }: Loads) {
  const events = store.memo.view('tankEvents', (batchId): readonly TankEvent[] => {
    const found: TankEvent[] = [];
    const of = (record: CurrentRecord, at: Moment = record.at) => ({
      ...placeAt(record, at),
      batchId,
      at,
      recordId: record.id,
    });
    for (const record of store.naming('batch.filled', batchId)) {
      const at = within(record, record.data.finishedAt);
      found.push({ ...of(record, at), kind: 'fill', litres: stock.litres(record.data.volume, at) });
    }
    for (const record of store.naming('tea.received', batchId)) {
      found.push({ ...of(record), kind: 'fill', litres: stock.litres(record.data.volume, record.at) });
    }
    for (const record of store.naming('batch.ingredientAdded', batchId)) found.push({ ...of(record), kind: 'add' });
    for (const record of store.naming('batch.neutralizerAdded', batchId)) found.push({ ...of(record), kind: 'add' });
    for (const load of loadsOf(batchId)) found.push(...eventsOf(load));
    for (const [type, how] of [
      ['batch.lost', 'lost'],
      ['batch.disposed', 'disposed'],
      ['tea.supplied', 'supplied'],
    ] as const) {
      for (const record of store.naming(type, batchId)) {
        found.push({ ...of(record), kind: 'loss', how, litres: stock.litres(record.data.volume, record.at) });
      }
    }
    return found.sort(comparePlaces);
  });

  function eventsOf(load: Load): TankEvent[] {
    const { batchId, at, id, litres, recordId } = load;
    const drawn = { instant: at.at, rank: rankOf('batch.drawn'), id };
    return [
      { ...drawn, batchId, at, recordId, kind: 'draw', drawId: id, litres },
      ...load.ended.map((record): TankEvent => {
        // A rest cannot come back before the load left, whatever the times written.
        const place = placeAt(record, record.at);
        const instant = Math.max(place.instant, drawn.instant);
        return {
          ...place,
          instant,
          batchId,
          at: record.at,
          recordId: record.id,
          kind: 'ended',
          drawId: id,
          litres: stock.litres(record.data.volume, record.at),
          into: tankOfRest(load, record),
        };
      }),
    ];
  }

  /** Batches that this one gave tea to or had it from, directly. */
  const neighbours = store.memo.view('tankNeighbours', (batchId): readonly string[] => {
    const to = loadsOf(batchId)
      .flatMap((load) => load.ended)
      .flatMap(({ data }) => (data.fate === 'carriedOver' && data.intoBatchId ? [data.intoBatchId] : []));
    const from = store
      .naming('draw.ended', batchId)
      .filter(({ data }) => data.fate === 'carriedOver' && data.intoBatchId === batchId)
      .map(({ data }) => batchOfDraw(data.drawId))
      .filter((id) => id !== null);
    return [...to, ...from];
  });

  const groupOf = (batchId: string): readonly string[] => {
    const group = new Set([batchId]);
    for (const each of group) for (const further of neighbours(each)) group.add(further);
    return [...group].sort(compareIds);
  };

  const groupHistories = store.memo.view('tankGroup', (first): ReadonlyMap<string, TankHistory> => {
    const group = groupOf(first);
    return runTanks(group, group.flatMap(events));
  });

  return {
    history: (batchId: string): TankHistory => {
      const history = groupHistories(groupOf(batchId)[0] ?? batchId).get(batchId);
      if (history === undefined) throw new Error(`batch ${batchId} is missing from its own group`);
      return history;
    },
    /** The histories of the batch and of those it exchanged tea with, its own tea told apart on the way. */
    following: (batchId: string): ReadonlyMap<string, TankHistory> => {
      const group = groupOf(batchId);
      return runTanks(group, group.flatMap(events), batchId);
    },
  };
}

export type Tanks = ReturnType<typeof tanks>;

function placeAt(record: CurrentRecord, at: Moment): Place {
  return { instant: at.at, rank: rankOf(record.type), id: record.id };
}
