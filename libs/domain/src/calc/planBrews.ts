import { zonedText } from '../calendar/index.ts';
import { Decimal, decimalIn, zero } from '../quantity/index.ts';
import { refuse, type Refusal } from './calculation.ts';
import { figure } from './figures.ts';
import type { PlanFacts } from './planFacts.ts';
import { ingredientsOf, type PlannedAmount, type PlannedIngredient, type PlanStock } from './planIngredients.ts';
import { litresNeeded, schedule, shareOut, total, type Slot } from './planSchedule.ts';
import { assumptionWords, clockWords, shortfallWords } from './planWords.ts';
import { recordable } from './scaleRecipe.ts';
import { sprayerLoads } from './sprayerOutput.ts';

export interface PlannedBatch {
  readonly vesselId: string;
  readonly volume: PlannedAmount;
  /** Start filling; fill finished and air on; ingredients; air off at the earliest; spray from and until. RFC 3339. */
  readonly fillFrom: string;
  readonly fillBy: string;
  readonly airOnAt: string;
  readonly ingredientsAt: string;
  readonly airOffAt: string;
  readonly applyFrom: string;
  readonly applyBy: string;
  /** Sprayer loads; null where the sprayer's tank is not known. */
  readonly loads: number | null;
  /** Where it goes, in the order of the targets. */
  readonly fields: readonly {
    readonly fieldId: string | null;
    readonly volume: PlannedAmount;
    readonly loads: number | null;
  }[];
  readonly ingredients: readonly PlannedIngredient[];
}

export interface BrewPlan {
  readonly batches: readonly PlannedBatch[];
  /** What does not fit and what would make it fit, what is missing, what was assumed; in words. */
  readonly warnings: readonly string[];
  readonly total: {
    /** Tea that the targets take, that is planned, and that is not. */
    readonly needed: PlannedAmount;
    readonly planned: PlannedAmount;
    readonly short: PlannedAmount;
    readonly loads: number | null;
  };
}

/**
 * Plans brews backwards from the spray window: by when to fill, air on, add, draw. A proposal; nothing is recorded.
 * Keeps the limits given; whatever cannot be kept is said in words, never dropped.
 */
export function planBrews(facts: PlanFacts): BrewPlan | Refusal {
  if (!(facts.spray.from < facts.spray.to))
    return refuse(['spray', 'to'], 'The spray window must end after it begins.');
  const each = litresNeeded(facts);
  if (each === null) return refuse(['targets'], 'An area or a rate has a unit that does not convert.');
  const need = total(each);
  if (!need.gt(0)) return refuse(['targets'], 'The targets take no tea: give an area and a rate of more than 0.');
  const unit = facts.vessels.find((v) => v.workingVolume !== null)?.workingVolume?.unit ?? 'L';

  const { found, hold, stretched } = bestSchedule(facts, need);
  const open = [...each];
  const stock: PlanStock = { lots: new Map(facts.lots.map((lot) => [lot.lotId, lot])), missing: new Map() };
  const batches = found.slots.map((slot) => batchOf(facts, slot, open, stock));
  const planned = need.minus(found.rest);
  const amount = (litres: Decimal): PlannedAmount => volumeIn(litres, unit);
  return {
    batches,
    warnings: [
      ...shortfallWords(facts, need, found, hold, unit),
      ...(stretched
        ? [
            `Spraying takes longer than the ${figure(facts.limits.holdAdvisedHours)} h advised after air off, within your limit of ${figure(facts.limits.holdMostHours)} h: keep the air on until the tank is used up.`,
          ]
        : []),
      ...stock.missing.values(),
      ...assumptionWords(facts),
      ...found.slots.flatMap((slot) => clockWords(facts, slot)),
    ],
    total: {
      needed: amount(need),
      planned: amount(planned),
      short: amount(found.rest),
      loads: batches.reduce<number | null>((sum, b) => (sum === null || b.loads === null ? null : sum + b.loads), 0),
    },
  };
}

/** Within the advised hold if that takes everything, else within the limit where that takes more. */
function bestSchedule(facts: PlanFacts, need: Decimal) {
  const { holdAdvisedHours, holdMostHours } = facts.limits;
  const advised = schedule(facts, need, holdAdvisedHours, facts.spray.to);
  if (!advised.rest.gt(0) || holdMostHours <= holdAdvisedHours) {
    return { found: advised, hold: holdAdvisedHours, stretched: false };
  }
  const most = schedule(facts, need, holdMostHours, facts.spray.to);
  return most.rest.lt(advised.rest)
    ? { found: most, hold: holdMostHours, stretched: true }
    : { found: advised, hold: holdAdvisedHours, stretched: false };
}

const volumeIn = (litres: Decimal, unit: string): PlannedAmount => {
  const value = decimalIn({ value: litres, unit: 'L' }, unit);
  return value === null ? { value: recordable(litres), unit: 'L' } : { value: recordable(value), unit };
};

function batchOf(facts: PlanFacts, slot: Slot, open: Decimal[], stock: PlanStock): PlannedBatch {
  const time = (at: number) => zonedText(at, facts.timeZone);
  const unit = slot.vessel.workingVolume?.unit ?? 'L';
  const tank = facts.sprayer.tank === null ? null : decimalIn(facts.sprayer.tank, 'L');
  const loads = (litres: Decimal) => (tank?.gt(0) ? sprayerLoads(litres, tank).loads : null);
  const shares = shareOut(slot.litres, open);
  return {
    vesselId: slot.vessel.vesselId,
    volume: volumeIn(slot.litres, unit),
    fillFrom: time(slot.fillFrom),
    fillBy: time(slot.airOnAt),
    airOnAt: time(slot.airOnAt),
    ingredientsAt: time(slot.ingredientsAt),
    airOffAt: time(slot.airOffAt),
    applyFrom: time(slot.airOffAt),
    applyBy: time(slot.applyBy),
    loads: loads(slot.litres),
    fields: facts.targets.flatMap((target, i) => {
      const share = shares[i] ?? zero;
      return share.gt(0) ? [{ fieldId: target.fieldId, volume: volumeIn(share, unit), loads: loads(share) }] : [];
    }),
    ingredients: ingredientsOf(facts, slot, stock),
  };
}
