import type { Application, Batch, Draw, Season } from '../facts/types.ts';
import { plain } from '../facts/rounded.ts';
import { nothing } from '../fold/exact.ts';
import { decimalIn } from '../quantity/convert.ts';
import type { Decimal } from '../quantity/decimal.ts';
import type { Quantity } from '../quantity/quantity.ts';
import type { TraceEdge, TraceRef } from './types.ts';

/** What was recorded of a batch as steps: lots in, tea carried in, draws out, their applications and targets. */
export function edgesOf(season: Season, batchId: string): TraceEdge[] {
  const batch = season.batch(batchId);
  if (batch === undefined) return [];
  return [...intoBatch(season, batch), ...batch.draws.flatMap((draw) => outOfDraw(season, batch, draw))];
}

/** Lots put in, and other batches' loads carried over into it. */
export function intoBatch(season: Season, batch: Batch): TraceEdge[] {
  const to: TraceRef = { kind: 'batch', id: batch.id };
  const lots = batch.ingredients.map(({ lotId, quantity, amount, recordId }): TraceEdge => ({
    from: { kind: 'lot', id: lotId },
    to,
    quantity: inLotUnit(season, lotId, amount) ?? quantity,
    recordId,
  }));
  const carried = season.everAbout(batch.id).flatMap((record): TraceEdge[] => {
    if (record.type !== 'draw.ended' || record.state === 'struck') return [];
    const { fate, intoBatchId, drawId, volume } = record.data;
    if (fate !== 'carriedOver' || intoBatchId !== batch.id) return [];
    return [{ from: { kind: 'draw', id: drawId }, to, quantity: volume, recordId: record.id }];
  });
  return [...lots, ...carried];
}

/** The draw itself, what of it was put back or carried over, its applications and their targets. */
export function outOfDraw(season: Season, batch: Batch, draw: Draw): TraceEdge[] {
  const from: TraceRef = { kind: 'draw', id: draw.id };
  const edges: TraceEdge[] = [
    { from: { kind: 'batch', id: batch.id }, to: from, quantity: draw.quantity, recordId: draw.recordIds[0] ?? '' },
  ];
  for (const ended of draw.ended) {
    const into = ended.fate === 'putBack' ? batch.id : ended.fate === 'carriedOver' ? ended.intoBatchId : undefined;
    if (into === undefined) continue;
    edges.push({
      from,
      to: { kind: 'batch', id: into },
      ...litresAs(draw.quantity, ended.litres),
      recordId: ended.recordId,
    });
  }
  const applications = draw.applicationIds.map((id) => season.application(id)).filter((found) => found !== undefined);
  const applied = appliedLitres(draw);
  for (const application of applications) {
    const part = applied && applied.div(applications.length);
    const to: TraceRef = { kind: 'application', id: application.id };
    edges.push({ from, to, ...litresAs(draw.quantity, part), recordId: application.record.id });
    for (const { place, share } of placesOf(application)) {
      const quantity = share === null ? {} : litresAs(draw.quantity, part && part.times(share));
      edges.push({ from: to, to: place, ...quantity, recordId: application.record.id });
    }
  }
  return edges;
}

/**
 * Where an application went, each place once, with its share of the whole: two targets on one field are one place. null:
 * how much of it a planting got cannot be told, for it was a target together with others.
 */
export function placesOf({ targets }: Application): { readonly place: TraceRef; readonly share: Decimal | null }[] {
  const places = new Map<string, { place: TraceRef; share: Decimal | null }>();
  const put = (place: TraceRef, share: Decimal | null): void => {
    const key = `${place.kind} ${place.id}`;
    const before = places.get(key);
    if (before === undefined) places.set(key, { place, share });
    else before.share = before.share === null || share === null ? null : before.share.plus(share);
  };
  for (const { fieldId, lotId, plantingIds, share } of targets) {
    if (fieldId !== undefined) put({ kind: 'field', id: fieldId }, share);
    if (lotId !== undefined) put({ kind: 'lot', id: lotId }, share);
    for (const id of plantingIds) put({ kind: 'planting', id }, plantingIds.length === 1 ? share : null);
  }
  return [...places.values()];
}

/** What of a draw was applied: what was drawn less what was put back, dumped or carried over; null where not known. */
export function appliedLitres(draw: Draw): Decimal | null {
  if (draw.litres === null) return null;
  let left: Decimal = draw.litres;
  for (const ended of draw.ended) if (ended.litres !== null) left = left.minus(ended.litres);
  return left.lt(0) ? nothing : left;
}

/** A volume in the unit in which the draw was written; in litres where that was a household measure. */
function litresAs(written: Quantity, litres: Decimal | null): { quantity?: Quantity } {
  if (litres === null) return {};
  const unit = written.unit === '{measure}' ? 'L' : written.unit;
  const amount = decimalIn({ value: litres, unit: 'L' }, unit);
  return amount === null ? {} : { quantity: { value: plain(amount), unit } };
}

/** An exact amount of a lot as a quantity in the lot's unit. */
export function inLotUnit(season: Season, lotId: string, amount: Decimal | null): Quantity | null {
  const unit = season.unitOfLot(lotId);
  return amount === null || unit === null ? null : { value: plain(amount), unit };
}
