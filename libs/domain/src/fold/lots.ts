import type { Moment } from '../facts/time.ts';
import type { Lot, LotMovement } from '../facts/types.ts';
import { compareCurrent } from '../order.ts';
import type { Quantity } from '../quantity/quantity.ts';
import type { CurrentRecord } from '../records/record.ts';
import type { Loads } from './applications.ts';
import { nothing } from './exact.ts';
import { within } from './moments.ts';
import type { Stock } from './stock.ts';
import type { Store } from './store.ts';

/** The kept views of lots: who they are and everything that became of them, in order of time. */
export function lots(store: Store, stock: Stock, { shown }: Loads) {
  return store.memo.view('lot', (id): Lot | undefined => {
    const identity = stock.identity(id);
    if (identity === undefined) return undefined;
    const movements: (LotMovement & { record: CurrentRecord })[] = [];
    const move = (
      record: CurrentRecord,
      kind: LotMovement['kind'],
      quantity: Quantity,
      into?: LotMovement['into'],
      at: Moment = record.at,
    ) => {
      const amount = stock.amountOf(id, quantity, at);
      movements.push({ kind, at, quantity, amount, recordId: record.id, ...(into && { into }), record });
    };
    /** Something was done with the lot, but no amount was written down: it moves nothing. */
    const touch = (record: CurrentRecord, kind: LotMovement['kind'], into: LotMovement['into']) =>
      movements.push({
        kind,
        at: record.at,
        quantity: { value: 0, unit: stock.unitOfLot(id) ?? identity.quantity.unit },
        amount: nothing,
        recordId: record.id,
        ...(into && { into }),
        record,
      });

    move(identity.origin.record, 'received', identity.quantity);
    for (const record of store.naming('batch.ingredientAdded', id)) {
      move(record, 'batch', record.data.quantity, { kind: 'batch', id: record.data.batchId });
    }
    for (const record of store.naming('batch.neutralizerAdded', id)) {
      move(record, 'neutralizer', record.data.quantity, { kind: 'batch', id: record.data.batchId });
    }
    for (const record of shown(store.naming('application.made', id))) {
      const { applicationId, tankMix = [], targets, startedAt } = record.data;
      const into = { kind: 'application', id: applicationId } as const;
      for (const part of tankMix) {
        if (part.lotId === id) move(record, 'tankMix', part.quantity, into, within(record, startedAt));
      }
      if (targets.some((target) => target.lotId === id)) touch(record, 'application', into);
    }
    for (const record of store.naming('pile.started', id)) {
      const into = { kind: 'pile', id: record.data.pileId } as const;
      for (const input of record.data.inputs) if (input.lotId === id) move(record, 'pile', input.quantity, into);
    }
    for (const record of store.naming('pile.added', id)) {
      move(record, 'pile', record.data.quantity, { kind: 'pile', id: record.data.pileId });
    }
    for (const record of store.naming('vessel.cleaned', id)) {
      touch(record, 'cleaning', { kind: 'vessel', id: record.data.vesselId });
    }
    for (const record of store.naming('equipment.cleaned', id)) {
      touch(record, 'cleaning', { kind: 'equipment', id: record.data.equipmentId });
    }
    for (const record of store.naming('lot.disposed', id)) move(record, 'disposed', record.data.quantity);
    for (const record of store.naming('lot.counted', id)) move(record, 'counted', record.data.quantity);

    return {
      ...identity,
      movements: movements.sort(inTime).map(({ record: _, ...movement }) => movement),
      holds: [...store.naming('lot.held', id), ...store.naming('lot.released', id)].sort(compareCurrent),
      recalls: store.naming('lot.recalled', id),
    };
  });
}

function inTime(a: { at: Moment; record: CurrentRecord }, b: { at: Moment; record: CurrentRecord }): number {
  return a.at.at - b.at.at || compareCurrent(a.record, b.record);
}
