import type { Quantity } from '@furrowmark/domain';
import { gal, hours, lb } from './amounts.ts';
import type { Stamp } from './calendar.ts';
import type { Diary } from './diary.ts';
import type { Stores } from './stores.ts';

/** A recipe as the brews use it: what goes in for a basis volume, and from which lot. */
export interface Recipe {
  readonly recipeId: string;
  readonly basisGallons: number;
  readonly parts: readonly { readonly materialId: string; readonly lotId: string; readonly amount: Quantity }[];
}
export type Recipes = ReturnType<typeof recipes>;

export function recipes(diary: Diary, { materials, lots }: Stores) {
  const worm = { materialId: materials.worm, lotId: lots.worm1, amount: lb(8) };
  const kelp = { materialId: materials.kelp, lotId: lots.kelp1, amount: lb(2) };
  const molasses = { materialId: materials.molasses, lotId: lots.molasses1, amount: gal(0.5) };
  const humic = { materialId: materials.humic, lotId: lots.humic1, amount: gal(0.15) };
  const leaf = { materialId: materials.leaf, lotId: lots.leaf1, amount: lb(10) };
  const basalt = { materialId: materials.basalt, lotId: lots.basalt1, amount: lb(3) };
  const fish = { materialId: materials.fish, lotId: lots.fish1, amount: gal(0.5) };
  return {
    /** Worm compost with food: brewed for the soil, kept off what is eaten. */
    house: publish(diary, 'House tea', '04-07 11:00', 300, [worm, molasses, kelp, humic]),
    /** Leaf compost and rock dust, no food added: for leaves. */
    plain: publish(diary, 'Leaf tea', '04-07 11:00', 300, [leaf, basalt]),
    fish: publish(diary, 'Fish tea', '04-07 11:00', 300, [worm, fish]),
    /** The big tank, topped up through the weeks. */
    field: publish(diary, 'Field tea', '04-07 11:00', 5_000, [
      { ...worm, lotId: lots.worm2, amount: lb(130) },
      { ...molasses, amount: gal(4) },
    ]),
  };
}

/** Publishes the first edition of a recipe. */
export function publish(diary: Diary, code: string, at: Stamp, basisGallons: number, parts: Recipe['parts']): Recipe {
  const recipeId = diary.newId();
  diary.write(
    'recipe.published',
    at,
    {
      ...{ recipeId, edition: 1, code, kind: 'aeratedTea', basisVolume: gal(basisGallons) },
      ingredients: parts.map(({ materialId, amount }) => ({ materialId, amount })),
      brewFor: hours(25),
    },
    { by: 'manager' },
  );
  return { recipeId, basisGallons, parts };
}
