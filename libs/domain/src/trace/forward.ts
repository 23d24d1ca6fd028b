import type { OpenSeason } from '../fold/season.ts';
import { exact, nothing } from '../fold/exact.ts';
import type { Decimal } from '../quantity/decimal.ts';
import { TraceBuilder, written } from './build.ts';
import { Flow, type Following } from './flow.ts';
import type { Arrival } from './flowLog.ts';
import { isDescribed } from './names.ts';
import { HarvestsNear, harvestReached, plantingsReached, transplantSteps } from './reach.ts';
import type { Trace, TraceRef } from './types.ts';

/** Where a lot, or the tea of a batch, went: every step, what each place got of it, and where the rest is. */
export function forwardFrom(season: OpenSeason, root: TraceRef & { readonly kind: 'lot' | 'batch' }): Trace {
  const following: Following = root.kind === 'lot' ? { lots: new Set([root.id]) } : { lots: new Set(), batch: root.id };
  const flow = new Flow(season, following);
  const unit = root.kind === 'lot' ? season.unitOfLot(root.id) : 'L';
  const whole = root.kind === 'lot' ? received(season, root.id) : flow.batchTotal;
  const built = new TraceBuilder(season, root);

  for (const { from, to, recordId, amounts } of flow.log.steps) {
    const amount = amounts.get(root.id);
    if (amount === undefined) continue;
    const { quantity } = written(amount, unit, whole);
    built.edge({ from, to, recordId, ...(quantity && { quantity }) });
    if (to.kind === root.kind && to.id === root.id && from.kind === 'application') {
      built.unresolved({
        id: to.id,
        why: 'a loop: tea made of this lot was put onto it again, and counts with what was used of it later',
      });
    }
    const comesNew = from.kind === 'lot' || from.kind === 'pile' || from.kind === 'application';
    if (to.kind === 'lot' || (to.kind === 'batch' && to.id !== root.id && (comesNew || isCarried(season, from, to)))) {
      built.reach(to, amount, unit, whole);
    }
  }
  const harvests = new HarvestsNear(season);
  const ontoPlantings = amountsOntoPlantings(flow.log.arrivals, root.id);
  for (const arrival of flow.log.arrivals)
    reachGround({ season, built, harvests, ontoPlantings, unit, whole }, arrival, arrival.amounts.get(root.id));
  for (const { id, why, amounts } of flow.log.gaps) {
    const { quantity } = written(amounts?.get(root.id) ?? null, unit, whole);
    built.unresolved({ id, why, ...(quantity && { quantity }) });
  }
  const ends = flow.log.ends.flatMap(({ amounts, ...end }) => {
    const amount = amounts.get(root.id);
    return amount === undefined ? [] : [{ ...end, ...written(amount, unit, whole) }];
  });
  for (const end of ends) {
    built.node(end.at);
    if (end.kind === 'supplied')
      built.unresolved({
        id: end.recordId ?? end.at.id,
        why: `tea ${end.why}: where they used it is in their records`,
      });
  }
  if (root.kind === 'lot' && !isDescribed(season, root)) {
    built.unresolved({
      id: root.id,
      why: 'no record describes this lot yet: where it went is shown, how much cannot be told',
    });
  }
  const { quantity } = written(whole, unit, whole);
  return built.finish({ direction: 'forward', ends, ...(quantity && { whole: quantity }) });
}

function received(season: OpenSeason, lotId: string): Decimal | null {
  const lot = season.lot(lotId);
  const amount = lot && season.amountOf(lotId, lot.quantity, lot.at);
  return amount ? exact(amount) : null;
}

/** Tea of another batch's draw, not the draw's own batch getting its rest back. */
function isCarried(season: OpenSeason, from: TraceRef, to: TraceRef): boolean {
  return from.kind === 'draw' && season.batchOfDraw(from.id) !== to.id;
}

/** The step from an application to a planting, as a key. */
const ontoPlanting = (applicationId: string, plantingId: string): string => `${applicationId} ${plantingId}`;

/**
 * What of the root came onto each planting by each application, by all its targets together; null where a planting was a
 * target together with others, so that its own part cannot be told.
 */
function amountsOntoPlantings(arrivals: readonly Arrival[], rootId: string): ReadonlyMap<string, Decimal | null> {
  const found = new Map<string, Decimal | null>();
  for (const { application, target, amounts } of arrivals) {
    const amount = amounts.get(rootId);
    if (amount === undefined) continue;
    for (const id of target.plantingIds) {
      const key = ontoPlanting(application.id, id);
      const before = found.get(key);
      const told = target.plantingIds.length === 1 && before !== null;
      found.set(key, told ? amount.plus(before ?? nothing) : null);
    }
  }
  return found;
}

interface Reaching {
  readonly season: OpenSeason;
  readonly built: TraceBuilder;
  readonly harvests: HarvestsNear;
  readonly ontoPlantings: ReadonlyMap<string, Decimal | null>;
  readonly unit: string | null;
  readonly whole: Decimal | null;
}

/** The field, what grew there, what was harvested of it and where that was shipped. */
function reachGround(
  { season, built, harvests, ontoPlantings, unit, whole }: Reaching,
  { application, target, fieldId }: Arrival,
  amount: Decimal | undefined,
): void {
  if (amount === undefined) return;
  const recordId = application.record.id;
  const from: TraceRef = { kind: 'application', id: application.id };
  const plantings = plantingsReached(season, application, target);
  const field: TraceRef = { kind: 'field', id: fieldId };
  built.reach(field, amount, unit, whole);
  if (!isDescribed(season, field)) built.unresolved({ id: fieldId, why: 'no record describes this field' });
  for (const id of target.plantingIds) {
    const to: TraceRef = { kind: 'planting', id };
    const alone = target.plantingIds.length === 1;
    const { quantity } = written(ontoPlantings.get(ontoPlanting(application.id, id)) ?? null, unit, whole);
    built.edge({ from, to, recordId, ...(quantity && { quantity }) });
    built.reach(to, alone ? amount : null, unit, whole);
    if (!isDescribed(season, to)) built.unresolved({ id, why: 'no record describes this planting' });
  }
  for (const edge of transplantSteps(plantings)) built.edge(edge);
  for (const planting of plantings) built.reach({ kind: 'planting', id: planting.id });
  if (target.plantingIds.length === 0) {
    built.unresolved({
      id: application.id,
      why: 'names no planting and none stood there: every later harvest of that ground counts as reached',
    });
  }
  for (const harvest of harvests.of(fieldId, plantings)) {
    const through = harvestReached(season, application, target, plantings, harvest);
    if (through !== null) reachHarvest(season, built, through, harvest.id);
  }
}

/** A harvest and its shipments, from the planting or ground that it came through. */
export function reachHarvest(season: OpenSeason, built: TraceBuilder, from: TraceRef, harvestId: string): void {
  const harvest = season.harvest(harvestId);
  if (harvest === undefined) return;
  const to: TraceRef = { kind: 'harvest', id: harvest.id };
  built.edge({ from, to, recordId: harvest.record.id });
  built.reach(to);
  if (harvest.plantingId === null) {
    built.unresolved({ id: harvest.id, why: 'the harvest names no planting: it counts as reached by its ground' });
  }
  for (const shipment of harvest.shipments) {
    const end: TraceRef = { kind: 'shipment', id: shipment.id };
    built.edge({ from: to, to: end, shipped: shipment.data.quantity, recordId: shipment.id });
    built.reach(end);
  }
}
