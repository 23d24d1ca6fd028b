import { dateOn, zonedText } from '../calendar/index.ts';
import { Decimal, decimal, decimalIn, resolveMeasure, zero } from '../quantity/index.ts';
import { refuse, type Refusal } from './calculation.ts';
import { figure } from './figures.ts';
import { pickLots, type StockLot } from './pickLots.ts';
import type { PlanFacts } from './planFacts.ts';
import { litresNeeded, schedule, shareOut, total, type Slot } from './planSchedule.ts';
import { assumptionWords, clockWords, shortfallWords } from './planWords.ts';
import { recordable, scaleFactor } from './scaleRecipe.ts';
import { sprayerLoads } from './sprayerOutput.ts';

interface Amount {
  readonly value: number;
  readonly unit: string;
  readonly measureId?: string;
}

export interface PlannedBatch {
  readonly vesselId: string;
  readonly volume: Amount;
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
    readonly volume: Amount;
    readonly loads: number | null;
  }[];
  readonly ingredients: readonly {
    readonly materialId: string;
    readonly quantity: Amount;
    readonly lots: readonly { readonly lotId: string; readonly quantity: Amount }[];
  }[];
}

export interface BrewPlan {
  readonly batches: readonly PlannedBatch[];
  /** What does not fit and what would make it fit, what is missing, what was assumed; in words. */
  readonly warnings: readonly string[];
  readonly total: {
    /** Tea that the targets take, that is planned, and that is not. */
    readonly needed: Amount;
    readonly planned: Amount;
    readonly short: Amount;
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
  const stock = new Map(facts.lots.map((lot) => [lot.lotId, lot]));
  const missing = new Map<string, string>();
  const batches = found.slots.map((slot) => batchOf(facts, slot, open, stock, missing));
  const planned = need.minus(found.rest);
  const amount = (litres: Decimal): Amount => volumeIn(litres, unit);
  return {
    batches,
    warnings: [
      ...shortfallWords(facts, need, found, hold, unit),
      ...(stretched
        ? [
            `Spraying takes longer than the ${figure(facts.limits.holdAdvisedHours)} h advised after air off, within your limit of ${figure(facts.limits.holdMostHours)} h: keep the air on until the tank is used up.`,
          ]
        : []),
      ...missing.values(),
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

const volumeIn = (litres: Decimal, unit: string): Amount => {
  const value = decimalIn({ value: litres, unit: 'L' }, unit);
  return value === null ? { value: recordable(litres), unit: 'L' } : { value: recordable(value), unit };
};

function batchOf(
  facts: PlanFacts,
  slot: Slot,
  open: Decimal[],
  stock: Map<string, StockLot>,
  missing: Map<string, string>,
): PlannedBatch {
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
    ingredients: ingredientsOf(facts, slot, stock, missing),
  };
}

function ingredientsOf(
  facts: PlanFacts,
  slot: Slot,
  stock: Map<string, StockLot>,
  missing: Map<string, string>,
): PlannedBatch['ingredients'] {
  const recipe = facts.recipe;
  const factor = recipe === null ? null : scaleFactor(recipe.basisVolume, { value: slot.litres, unit: 'L' });
  if (recipe === null || factor === null) return [];
  return recipe.ingredients.map(({ materialId, name, amount }) => {
    const scaled = decimal(amount.value).times(factor);
    const worth = resolveMeasure(amount, facts.measures);
    const lots = [...stock.values()].filter((lot) => lot.materialId === materialId);
    const on = dateOn(slot.ingredientsAt, facts.timeZone);
    if (worth === null)
      missing.set(`measure ${materialId}`, `${name}: the household measure is not registered, so no lot is picked.`);
    const picking = worth === null ? null : pickLots(lots, { value: worth.value.times(factor), unit: worth.unit }, on);
    for (const pick of picking?.picks ?? []) {
      const lot = stock.get(pick.lotId);
      if (lot !== undefined) stock.set(pick.lotId, { ...lot, balance: lot.balance.minus(pick.amount) });
    }
    if (picking !== null && worth !== null && picking.short.gt(0)) {
      const why = picking.skipped.map((s) => ` Lot ${s.code} ${s.why}.`).join('');
      missing.set(
        `lots ${materialId} ${slot.vessel.vesselId} ${String(slot.airOnAt)}`,
        `${name} for ${slot.vessel.code} on ${on}: ${figure(picking.short.toNumber(), 4)} ${worth.unit} of ${figure(worth.value.times(factor).toNumber(), 4)} ${worth.unit} is not in stock.${why}`,
      );
    }
    return {
      materialId,
      quantity: {
        value: recordable(scaled),
        unit: amount.unit,
        ...(amount.measureId === undefined ? {} : { measureId: amount.measureId }),
      },
      lots: (picking?.picks ?? []).map((pick) => ({
        lotId: pick.lotId,
        quantity: { value: recordable(pick.amount), unit: pick.unit },
      })),
    };
  });
}
