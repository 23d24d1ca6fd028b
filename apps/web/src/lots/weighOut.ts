import type { Batch, Lot, Quantity, Season } from '@furrowmark/domain';
import type { Engine } from '../season/engine.ts';
import type { TankWords } from '../tank/useTank.ts';
import { byExpiry, troubleOf } from './lots.ts';
import { materialName } from './materialName.ts';

/** One line of the weigh-out: what the recipe asks for this fill, which lot to take it from, whether it is in. */
export interface WeighOutLine {
  readonly materialId: string;
  readonly name: string;
  readonly amount: Quantity;
  readonly lot: Lot | null;
  readonly isIn: boolean;
}

/** The recipe scaled to what was filled (or is planned), with the lot to take: first expiring first. */
export function weighOut(
  engine: Engine,
  season: Season,
  batch: Batch,
  now: number,
  w: TankWords,
): readonly WeighOutLine[] {
  const recipe = batch.recipeId === null ? undefined : season.recipe(batch.recipeId, now);
  const volume = volumeOf(batch);
  if (recipe === undefined || volume === null) return [];
  const scaled = engine.domain.calculations['scale-recipe'].run({
    basisVolume: recipe.data.basisVolume,
    ingredients: recipe.data.ingredients.map(({ materialId, amount }) => ({ name: materialId, amount })),
    volume,
  });
  if (engine.domain.isRefusal(scaled)) return [];
  const day = engine.domain.dateOn(now, season.timeZone);
  const usable = season
    .lots()
    .filter((lot) => troubleOf(season, lot, day, w) === null)
    .sort(byExpiry);
  return scaled.ingredients.map(({ name: materialId, amount }): WeighOutLine => {
    const rounded = { ...amount, value: Number(amount.value.toPrecision(3)) };
    return {
      materialId,
      name: materialName({ engine, season }, materialId, now),
      amount: rounded,
      lot: usable.find((lot) => lot.materialId === materialId) ?? null,
      isIn: batch.ingredients.some((each) => each.materialId === materialId),
    };
  });
}

/** What was filled, in the unit it was written in; else what is planned. */
export function volumeOf(batch: Batch): Quantity | null {
  const fills = batch.fills.filter(({ ontoLivingTea }) => !ontoLivingTea);
  const [first] = fills;
  if (first === undefined) return batch.opened?.data.plannedVolume ?? null;
  const { unit } = first.quantity;
  if (fills.every(({ quantity }) => quantity.unit === unit)) {
    return { value: fills.reduce((sum, { quantity }) => sum + quantity.value, 0), unit };
  }
  return { value: batch.volume.filledL.toNumber(), unit: 'L' };
}
