import type { Decimal } from '../quantity/decimal.ts';
import { decimalIn } from '../quantity/convert.ts';
import { resolveMeasure } from '../quantity/measure.ts';
import type { Quantity } from '../quantity/quantity.ts';
import type { RecordId } from '../records/ids.ts';
import { asOf } from './asOf.ts';
import type { Moment } from './time.ts';
import type { Harvest, Season } from './types.ts';

/** A harvest's amounts: what was brought in, and what was shipped of it, in order of time. */
export interface HarvestAccount {
  /** The unit it is counted in: as it was harvested, or what the household measure is worth in; null while unknown. */
  readonly unit: string | null;
  readonly lines: readonly HarvestLine[];
}

export interface HarvestLine {
  readonly recordId: RecordId;
  readonly at: Moment;
  readonly quantity: Quantity;
  /** To whom it was shipped; absent where it was harvested. */
  readonly to?: string;
  /** What was left after it, in the unit; below zero: more was shipped than there was. null once an amount is unknown. */
  readonly left: Decimal | null;
}

/** What became of a harvest: harvested = shipped + left, exactly, where every amount can be told in its unit. */
export function harvestAccount(season: Season, { record, at, shipments }: Harvest): HarvestAccount {
  const proper = (quantity: Quantity, on: Moment) =>
    resolveMeasure(quantity, (id) => {
      const measure = season.measure(id);
      return measure && asOf(measure, on.at);
    });
  const unit = proper(record.data.quantity, at)?.unit ?? null;
  const amount = (quantity: Quantity, on: Moment): Decimal | null => {
    const worth = proper(quantity, on);
    return worth === null || unit === null ? null : decimalIn(worth, unit);
  };
  let left = amount(record.data.quantity, at);
  const lines: HarvestLine[] = [{ recordId: record.id, at, quantity: record.data.quantity, left }];
  for (const shipment of shipments.toSorted((a, b) => a.at.at - b.at.at)) {
    const { quantity, to } = shipment.data;
    left = left === null ? null : (amount(quantity, shipment.at)?.negated().plus(left) ?? null);
    lines.push({ recordId: shipment.id, at: shipment.at, quantity, to, left });
  }
  return { unit, lines };
}
