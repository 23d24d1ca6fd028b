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

/** The book balance of a lot just before an instant, in its own unit: what came in less what went out. */
export function balanceBefore(lot: Lot, at: Instant): Decimal {
  return sumOf(lot, (movement) => movement.at.at < at);
}

/** Signed sum of the movements that pass the test; those of unknown worth are left out (see `unknownIn`). */
export function sumOf(lot: Lot, test: (movement: LotMovement) => boolean): Decimal {
  return lot.movements
    .filter(test)
    .reduce((sum, movement) => sum.plus((movement.amount ?? decimal(0)).times(sign[movement.kind])), decimal(0));
}

/** Movements whose quantity cannot be expressed in the lot's unit: they are missing from its balance. */
export const unknownIn = (lot: Lot, before: Instant): number =>
  lot.movements.filter(({ amount, at, kind }) => amount === null && at.at < before && kind !== 'counted').length;

export const wentOut = ({ kind }: LotMovement): boolean => sign[kind] === -1 && kind !== 'disposed';

/** The last count before an instant. */
export const lastCount = (lot: Lot, before: Instant): LotMovement | undefined =>
  lot.movements.findLast(({ kind, at }) => kind === 'counted' && at.at < before);
