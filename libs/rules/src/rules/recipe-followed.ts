import { asOf, decimalIn, litres, resolveMeasure, type Batch, type Decimal, type Season } from '@furrowmark/domain';
import { z } from 'zod';
import { broken, caution, due, met, notApplicable, unknown, worst, type Judgement } from '../engine/judgement.ts';
import { percent } from '../engine/parameter.ts';
import { tankRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { firstFills } from '../judging/water.ts';
import { hourMs } from '../judging/span.ts';
import { unitWords } from '../judging/reading.ts';
import { timeOf } from '../judging/when.ts';
import { say, type Said } from '../words/index.ts';

/** Ingredients that belong to the brew as begun; what goes in more than 2 h later is a top-up. */
const begunWith = (batch: Batch) =>
  batch.ingredients.filter(
    ({ kind, recordId }) => kind === 'ingredient' && !batch.topUps.some((topUp) => topUp.recordId === recordId),
  );

function sumIn(
  season: Season,
  batch: Batch,
  materialId: string,
  unit: string,
): { readonly sum: number | null; readonly recordIds: string[] } {
  const used = begunWith(batch).filter((ingredient) => ingredient.materialId === materialId);
  let sum: Decimal | null = null;
  for (const { quantity, at } of used) {
    const worth = resolveMeasure(quantity, (id) => {
      const measure = season.measure(id);
      return measure && asOf(measure, at.at);
    });
    const amount = worth === null ? null : decimalIn(worth, unit);
    if (amount === null) return { sum: null, recordIds: used.map(({ recordId }) => recordId) };
    sum = sum === null ? amount : sum.plus(amount);
  }
  return { sum: sum?.toNumber() ?? 0, recordIds: used.map(({ recordId }) => recordId) };
}

/** The ingredients against the recipe, scaled to what was filled in. */
export const recipeFollowed = defineRule({
  id: 'recipe-followed',
  revision: 3,
  title: 'Recipe followed',
  reason:
    'A brew can be repeated only when it was made as written, and a tank filled less than usual needs less feed as well. Twice the feed in the same water is the commonest way to lose the oxygen.',
  basis: 'practice',
  citation: 'common practice, no source',
  severity: 'notice',
  packs: ['practice'],
  parameters: () =>
    z.object({
      compostPercent: percent(20, 'Difference let stand for compost and worm compost.'),
      otherPercent: percent(10, 'Difference let stand for everything else.'),
    }),
  chosenAt: 'brew start',
  looksAt: {
    kinds: ['batch', 'lot', 'material'],
    records: [...tankRecords, 'recipe.published'],
  },
  judge: {
    batch(batch, { limits, now, season }) {
      const start = batch.brewStart;
      const book = limits(start?.at ?? now);
      if (batch.recipeId === null) return notApplicable(book, say('recipe-followed.noRecipe'));
      if (start === null) return notApplicable(book, say('recipe-followed.noIngredient'));
      const recipe = season.recipe(batch.recipeId, start.at);
      const recordIds = begunWith(batch).map(({ recordId }) => recordId);
      if (recipe === undefined) return unknown(book, say('recipe-followed.recipeUnknown'), { recordIds });
      const filled = firstFills(batch).reduce<number | null>(
        (sum, fill) => (sum === null || fill.litres === null ? null : sum + fill.litres.toNumber()),
        0,
      );
      const basis = litres(recipe.data.basisVolume)?.toNumber() ?? null;
      if (filled === null || basis === null || filled === 0 || basis === 0)
        return unknown(book, say('recipe-followed.volumeUnknown'), { recordIds });
      const settled = start.at + 2 * hourMs;
      const scale = filled / basis;
      const missing: (string | Said)[] = [];
      const judgements = recipe.data.ingredients.map(({ materialId, amount, from, to }): Judgement => {
        const material = season.material(materialId);
        const kind = material?.registered.kind;
        const name = material?.registered.name ?? say('recipe-followed.anIngredient');
        const share =
          kind === 'compost' || kind === 'vermicompost' ? book.parameters.compostPercent : book.parameters.otherPercent;
        const { unit } = amount;
        const bound = (end: typeof from, byDefault: number): number =>
          (end === undefined ? byDefault : (decimalIn(end, unit)?.toNumber() ?? byDefault)) * scale;
        const least = bound(from, amount.value * (1 - share / 100));
        const most = bound(to, amount.value * (1 + share / 100));
        const used = sumIn(season, batch, materialId, unit);
        const evidence = {
          figures: [
            {
              name: typeof name === 'string' ? name : 'ingredient',
              value: used.sum,
              unit,
              advised: amount.value * scale,
              limit: (used.sum ?? 0) < least ? least : most,
            },
          ],
          recordIds: used.recordIds.length === 0 ? recordIds : used.recordIds,
        };
        if (used.sum === null)
          return unknown(book, say('recipe-followed.amountUnknown', { name, unit: unitWords(unit) }), evidence);
        if (used.recordIds.length === 0 && least > 0) missing.push(name);
        const said = say('recipe-followed.said', {
          sum: used.sum,
          unit: unitWords(unit),
          name,
          asked: amount.value * scale,
          least,
          most,
        });
        // The scaled bounds come from a division; a billionth is no difference on a scale.
        return used.sum < least * (1 - 1e-9) || used.sum > most * (1 + 1e-9)
          ? broken(book, say('common.stop', { said }), evidence)
          : met(book, say('common.stop', { said }), evidence);
      });
      if (missing.length > 0 && now < settled && batch.draws.length === 0) {
        return due(
          book,
          settled,
          say('due.add', { names: missing }),
          say('recipe-followed.missing', {
            missing,
            settled: timeOf(season, settled),
          }),
          { recordIds },
        );
      }
      const asked = new Set<string>(recipe.data.ingredients.map(({ materialId }) => materialId));
      const extra = begunWith(batch).filter(
        ({ materialId, materialKind }) => materialId !== null && !asked.has(materialId) && materialKind !== 'antifoam',
      );
      for (const { materialId, recordId } of extra) {
        judgements.push(
          caution(
            book,
            say('recipe-followed.extra', {
              what: season.material(materialId ?? '')?.registered.name ?? say('recipe-followed.something'),
            }),
            { recordIds: [recordId] },
          ),
        );
      }
      return (
        worst(judgements, (n) => say('recipe-followed.more', { n })) ??
        met(book, say('recipe-followed.empty'), { recordIds })
      );
    },
  },
});
