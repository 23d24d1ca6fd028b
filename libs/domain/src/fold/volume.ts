import type { VolumeAccount } from '../facts/types.ts';
import type { Moment } from '../facts/time.ts';
import type { Quantity } from '../quantity/quantity.ts';
import type { Decimal } from '../quantity/decimal.ts';
import type { CurrentRecord } from '../records/record.ts';
import { type Load, tankOfRest } from './applications.ts';
import { nothing, sum } from './exact.ts';
import type { TankHistory } from './tank.ts';

export interface Movements {
  readonly filled: readonly CurrentRecord<'batch.filled'>[];
  readonly received: readonly CurrentRecord<'tea.received'>[];
  /** Rests of other batches' draws that were put into this tank. */
  readonly carriedIn: readonly CurrentRecord<'draw.ended'>[];
  readonly loads: readonly Load[];
  readonly lost: readonly CurrentRecord<'batch.lost'>[];
  readonly disposed: readonly CurrentRecord<'batch.disposed'>[];
  readonly supplied: readonly CurrentRecord<'tea.supplied'>[];
  readonly closed: CurrentRecord<'batch.closed'> | null;
}

/**
 * What came in against what went out, litres, exact. A volume that cannot be converted counts as 0. While the batch is
 * open its running content stands for what remains; a batch closed without saying what remained has nothing left.
 */
export function volumeAccount(
  movements: Movements,
  tank: TankHistory,
  litres: (quantity: Quantity, at: Moment) => Decimal | null,
): VolumeAccount {
  const of = (records: readonly { readonly data: { readonly volume: Quantity }; readonly at: Moment }[]) =>
    sum(records.map((each) => litres(each.data.volume, each.at) ?? nothing));
  const { loads, closed } = movements;
  const receivedL = of(movements.received);
  const carriedInL = of(movements.carriedIn);
  const filledL = of(movements.filled).plus(receivedL).plus(carriedInL);
  const putBackL = of(loads.flatMap((load) => load.ended.filter((each) => tankOfRest(load, each) === load.batchId)));
  const drawnL = sum(loads.map((load) => load.litres ?? nothing));
  const suppliedL = of(movements.supplied);
  const lostL = of(movements.lost);
  const disposedL = of(movements.disposed);
  const said = closed?.data.remainingVolume;
  const remainingL = closed !== null && said !== undefined ? litres(said, closed.at) : null;
  const left = closed === null ? (tank.leftLitres ?? nothing) : (remainingL ?? nothing);
  const unaccountedL = filledL.plus(putBackL).minus(drawnL).minus(suppliedL).minus(lostL).minus(disposedL).minus(left);
  return { filledL, receivedL, carriedInL, putBackL, drawnL, suppliedL, lostL, disposedL, remainingL, unaccountedL };
}
