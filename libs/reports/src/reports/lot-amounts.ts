import { decimal, type Decimal, type Instant, type Lot, type LotMovement } from '@furrowmark/domain';

/** Whether a movement brings stock in, takes it out, or only states what was counted. */
const sign: Readonly<Record<LotMovement['kind'], 1 | -1 | 0>> = {
  received: 1,
  batch: -1,
  neutralizer: -1,
  tankMix: -1,
  pile: -1,
  cleaning: -1,
  application: -1,
  disposed: -1,
  counted: 0,
};

/**
 * The book balance of a lot just before an instant, in its own unit: what came in less what went out. Movements of
 * unknown worth are left out (see `unknownIn`).
 */
export function balanceBefore(lot: Lot, before: Instant): Decimal {
  let sum = decimal(0);
  for (const { at, kind, amount } of lot.movements)
    if (amount !== null && at.at < before) sum = sum.plus(amount.times(sign[kind]));
  return sum;
}

/** What a lot's book says over a period, in its own unit, each as an amount: opening + received − used − disposed = closing. */
export function amountsOver(
  lot: Lot,
  { start, end }: { readonly start: Instant; readonly end: Instant },
): Readonly<Record<'opening' | 'received' | 'used' | 'disposed', Decimal>> {
  let [opening, received, used, disposed] = [decimal(0), decimal(0), decimal(0), decimal(0)];
  for (const movement of lot.movements) {
    const { at, kind, amount } = movement;
    if (amount === null || at.at >= end) continue;
    if (at.at < start) opening = opening.plus(amount.times(sign[kind]));
    else if (kind === 'received') received = received.plus(amount);
    else if (kind === 'disposed') disposed = disposed.plus(amount);
    else if (wentOut(movement)) used = used.plus(amount);
  }
  return { opening, received, used, disposed };
}

/** Movements whose quantity cannot be expressed in the lot's unit: they are missing from its balance. */
export const unknownIn = (lot: Lot, before: Instant): number =>
  lot.movements.filter(({ amount, at, kind }) => amount === null && at.at < before && kind !== 'counted').length;

export const wentOut = ({ kind }: LotMovement): boolean => sign[kind] === -1 && kind !== 'disposed';

/** The last count before an instant. */
export const lastCount = (lot: Lot, before: Instant): LotMovement | undefined =>
  lot.movements.findLast(({ kind, at }) => kind === 'counted' && at.at < before);
