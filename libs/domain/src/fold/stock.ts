import type { Decimal } from '../quantity/decimal.ts';
import { asOf } from '../facts/asOf.ts';
import type { Instant, Moment } from '../facts/time.ts';
import type { Lot } from '../facts/types.ts';
import { compareCurrent } from '../order.ts';
import { decimalIn } from '../quantity/convert.ts';
import { resolveMeasure } from '../quantity/measure.ts';
import type { Quantity } from '../quantity/quantity.ts';
import { cut, exact } from './exact.ts';
import type { Registers } from './registers.ts';
import type { Store } from './store.ts';

/** Who a lot is, apart from what became of it. */
export type LotIdentity = Omit<Lot, 'movements' | 'holds' | 'recalls'>;

/** Lots' identities, and what written quantities are worth. */
export function stock(store: Store, { measure }: Registers) {
  /** The written quantity in a proper unit, household measures at their worth on that day; null while unknown. */
  const proper = (quantity: Quantity, on: Instant) =>
    resolveMeasure(quantity, (id) => {
      const known = measure(id);
      return known && asOf(known, on);
    });

  const inUnit = (quantity: Quantity, unit: string, on: Instant): Decimal | null => {
    const worth = proper(quantity, on);
    const amount = worth && decimalIn(worth, unit);
    return amount && cut(exact(amount));
  };

  const identity = store.memo.view('lotIdentity', (id): LotIdentity | undefined => {
    const received = store.naming('lot.received', id).filter((each) => each.data.lotId === id);
    const finished = store.naming('pile.finished', id).filter((each) => each.data.lotId === id);
    const described = [...received, ...finished].sort(compareCurrent);
    const shown = described.at(-1);
    if (shown === undefined) return undefined;
    const { lotId, code, materialId, quantity } = shown.data;
    return {
      id: lotId,
      code,
      origin:
        shown.type === 'lot.received'
          ? { kind: 'received', record: shown }
          : { kind: 'pile', pileId: shown.data.pileId, record: shown },
      materialId,
      quantity,
      at: shown.at,
      ...(shown.type === 'lot.received' && shown.data.expiresOn !== undefined
        ? { expiresOn: shown.data.expiresOn }
        : {}),
      rivals: described.slice(0, -1).map((each) => each.id),
    };
  });

  /** The unit a lot's amounts are counted in: the one it was received in, or what its household measure is worth in. */
  const unitOfLot = (lotId: string): string | null => {
    const lot = identity(lotId);
    return lot === undefined ? null : (proper(lot.quantity, lot.at.at)?.unit ?? null);
  };

  return {
    identity,
    unitOfLot,
    inUnit,
    litres: (quantity: Quantity, at: Moment): Decimal | null => inUnit(quantity, 'L', at.at),
    /** An amount of a lot in the lot's own unit; null while lot or measure is unknown, or the units don't meet. */
    amountOf: (lotId: string, quantity: Quantity, at: Moment): Decimal | null => {
      const unit = unitOfLot(lotId);
      return unit === null ? null : inUnit(quantity, unit, at.at);
    },
  };
}

export type Stock = ReturnType<typeof stock>;
