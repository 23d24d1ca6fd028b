import type { Season } from '../facts/types.ts';
import { exact, nothing } from '../fold/exact.ts';
import { recordOfParcel, type TankHistory } from '../fold/tank.ts';
import type { Decimal } from '../quantity/decimal.ts';
import type { Amounts } from './amounts.ts';

/**
 * The tea of a batch as parcels: its own fills (or the tea received) in litres, and what other batches' loads brought
 * into its tank, which counts as its tea from then on. `total` is all that came into the tank.
 */
export function teaOfBatch(
  season: Season,
  batchId: string,
  tanks: ReadonlyMap<string, TankHistory>,
): { readonly parcels: ReadonlyMap<string, Amounts>; readonly total: Decimal } {
  const litres = new Map<string, Decimal>();
  for (const id of tanks.keys()) for (const [record, amount] of filled(season, id)) litres.set(record, amount);
  const own = filled(season, batchId);
  const parcels = new Map<string, Amounts>();
  let total = nothing;
  for (const [record, amount] of own) {
    parcels.set(record, new Map([[batchId, amount]]));
    total = total.plus(amount);
  }
  for (const [record, amount] of litres) parcels.set(`${record}>${batchId}`, new Map([[batchId, amount]]));
  for (const carried of tanks.get(batchId)?.carriedIn.values() ?? []) {
    for (const [id, share] of carried) {
      const record = recordOfParcel(id);
      if (!own.has(record)) total = total.plus(exact(litres.get(record) ?? nothing).times(share));
    }
  }
  return { parcels, total };
}

/** Litres by the record that brought them. */
function filled(season: Season, batchId: string): ReadonlyMap<string, Decimal> {
  const batch = season.batch(batchId);
  const found = new Map<string, Decimal>();
  for (const { recordId, litres } of batch?.fills ?? []) if (litres !== null) found.set(recordId, litres);
  if (batch?.receivedTea) found.set(batch.receivedTea.id, batch.volume.receivedL);
  return found;
}
