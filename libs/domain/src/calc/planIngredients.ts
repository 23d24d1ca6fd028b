import { dateOn } from '../calendar/index.ts';
import { decimal, resolveMeasure, type Decimal } from '../quantity/index.ts';
import { figure } from './figures.ts';
import { pickLots, type Picking, type StockLot } from './pickLots.ts';
import type { PlanFacts, PlanRecipe } from './planFacts.ts';
import type { Slot } from './planSchedule.ts';
import { recordable, scaleFactor } from './scaleRecipe.ts';

/** An amount of a plan, as a record could hold it. */
export interface PlannedAmount {
  readonly value: number;
  readonly unit: string;
  readonly measureId?: string;
}

export interface PlannedIngredient {
  readonly materialId: string;
  /** In the unit of the recipe. */
  readonly quantity: PlannedAmount;
  /** Each in its lot's unit. */
  readonly lots: readonly { readonly lotId: string; readonly quantity: PlannedAmount }[];
}

/** Stock that a plan draws on; each batch takes its share before the next one picks. */
export interface PlanStock {
  readonly lots: Map<string, StockLot>;
  /** What is missing, in words, by what it is about. */
  readonly missing: Map<string, string>;
}

/** The recipe for one batch, with the lots to take; takes them out of the stock. */
export function ingredientsOf(facts: PlanFacts, slot: Slot, stock: PlanStock): readonly PlannedIngredient[] {
  const { recipe } = facts;
  if (recipe === null) return [];
  const factor = scaleFactor(recipe.basisVolume, { value: slot.litres, unit: 'L' });
  if (factor === null) {
    const why = 'the volume that it is for is nothing, or a household measure that is not registered';
    stock.missing.set('basis', `Recipe ${recipe.code}: ${why}, so no ingredients are planned.`);
    return [];
  }
  return recipe.ingredients.map((ingredient) => {
    const { materialId, amount } = ingredient;
    return {
      materialId,
      quantity: {
        value: recordable(decimal(amount.value).times(factor)),
        unit: amount.unit,
        ...(amount.measureId === undefined ? {} : { measureId: amount.measureId }),
      },
      lots: take(facts, slot, stock, ingredient, factor).map((pick) => ({
        lotId: pick.lotId,
        quantity: { value: recordable(pick.amount), unit: pick.unit },
      })),
    };
  });
}

function take(
  facts: PlanFacts,
  slot: Slot,
  stock: PlanStock,
  { materialId, name, amount }: PlanRecipe['ingredients'][number],
  factor: Decimal,
): Picking['picks'] {
  const worth = resolveMeasure(amount, facts.measures);
  if (worth === null) {
    stock.missing.set(
      `measure ${materialId}`,
      `${name}: the household measure is not registered, so no lot is picked.`,
    );
    return [];
  }
  const wanted = worth.value.times(factor);
  const on = dateOn(slot.ingredientsAt, facts.timeZone);
  const lots = [...stock.lots.values()].filter((lot) => lot.materialId === materialId);
  const picking = pickLots(lots, { value: wanted, unit: worth.unit }, on);
  for (const pick of picking.picks) {
    const lot = stock.lots.get(pick.lotId);
    if (lot !== undefined) stock.lots.set(pick.lotId, { ...lot, balance: lot.balance.minus(pick.amount) });
  }
  if (picking.short.gt(0)) {
    const amounts = [picking.short, wanted].map((d) => `${figure(d.toNumber(), 4)} ${worth.unit}`).join(' of ');
    const why = picking.skipped.map((s) => ` Lot ${s.code} ${s.why}.`).join('');
    stock.missing.set(
      `lots ${materialId} ${slot.vessel.vesselId} ${String(slot.airOnAt)}`,
      `${name} for ${slot.vessel.code} on ${on}: ${amounts} is not in stock.${why}`,
    );
  }
  return picking.picks;
}
