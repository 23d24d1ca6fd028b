import type { Batch, Instant } from '@furrowmark/domain';
import { z } from 'zod';
import { caution, due, notApplicable, unknown } from '../engine/judgement.ts';
import { hours } from '../engine/parameter.ts';
import { tankRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { judged } from '../judging/by-standing.ts';
import { brewingSince, cameToNothing, loadsOut, recordIdsOf, teaLeft } from '../judging/draws.ts';
import { atMost, hourMs } from '../judging/span.ts';
import { besideLimit, spanFigure, spanWords, timeOf } from '../judging/when.ts';
import { say } from '../words/index.ts';

/** Whether microbial food was in by then; null where a lot's material is not known. */
function foodIn(batch: Batch, at: Instant): boolean | null {
  const added = batch.ingredients.filter((ingredient) => ingredient.kind === 'ingredient' && ingredient.at.at <= at);
  if (added.some((ingredient) => ingredient.microbialFood === true)) return true;
  return added.some((ingredient) => ingredient.microbialFood === null) ? null : false;
}

/** Brew time of each draw, from above. Judged by the book in force at the draw. */
export const brewMaximum = defineRule({
  id: 'brew-maximum',
  revision: 1,
  title: 'Not brewed too long',
  reason:
    'When the feed is used up the organisms starve, the oxygen falls and the brew turns. With molasses, fish or other microbial food this comes sooner, so the time is shorter.',
  basis: 'practice',
  citation: 'common practice, no source',
  severity: 'minor',
  packs: ['practice'],
  parameters: () =>
    z.object({
      withFoodAdvisedHours: hours(36, 'Advised longest brew with microbial food.'),
      withFoodLimitHours: hours(48, 'Longest brew with microbial food.'),
      withoutFoodAdvisedHours: hours(48, 'Advised longest brew without microbial food.'),
      withoutFoodLimitHours: hours(72, 'Longest brew without microbial food.'),
    }),
  chosenAt: 'the draw; while nothing was drawn, brew start',
  looksAt: {
    kinds: ['batch', 'lot', 'material'],
    records: [...tankRecords],
  },
  judge: {
    draw({ batch, draw }, { limits, season }) {
      const book = limits(draw.at.at);
      if (batch.receivedTea !== null) return notApplicable(book, say('common.brewedElsewhere'));
      if (cameToNothing(draw)) return notApplicable(book, say('common.cameToNothing'));
      const { brewHours, brewFrom, recordIds } = draw;
      if (brewHours === null || brewFrom === null) {
        return unknown(book, say('common.noIngredientBefore'), {
          recordIds,
        });
      }
      const food = foodIn(batch, draw.at.at);
      const p = book.parameters;
      const fed = { advised: p.withFoodAdvisedHours, limit: p.withFoodLimitHours, words: say('brew-maximum.withFood') };
      const plain = {
        advised: p.withoutFoodAdvisedHours,
        limit: p.withoutFoodLimitHours,
        words: say('brew-maximum.withoutFood'),
      };
      const { advised, limit, words } = food === false ? plain : fed;
      const standing = atMost(brewHours, limit, advised);
      const evidence = { figures: [spanFigure('brewHours', brewHours, 'h', { advised, limit })], recordIds };
      if (food === null && standing !== atMost(brewHours, plain.limit, plain.advised)) {
        return unknown(book, say('brew-maximum.foodUnknown', { brewHours: spanWords(brewHours) }), evidence);
      }
      const said = say('brew-maximum.said', {
        brewHours: besideLimit(brewHours, limit),
        brewFrom: timeOf(season, brewFrom.at),
        words,
      });
      return judged(
        book,
        standing,
        {
          within: say('brew-maximum.within', { said }),
          pastAdvised: say('brew-maximum.pastAdvised', { said, limit, advised }),
          over: say('brew-maximum.over', { said, limit }),
          unsure: say('brew-maximum.unsure', { brewHours: spanWords(brewHours), words, limit, advised }),
        },
        evidence,
      );
    },
    batch(batch, { limits, now, season }) {
      const from = brewingSince(batch);
      if (from === null || !teaLeft(batch) || batch.airOff !== null) return null;
      const book = limits(from.at);
      const food = foodIn(batch, Infinity) !== false;
      const p = book.parameters;
      const advised = from.at + (food ? p.withFoodAdvisedHours : p.withoutFoodAdvisedHours) * hourMs;
      const limit = from.at + (food ? p.withFoodLimitHours : p.withoutFoodLimitHours) * hourMs;
      const recordIds = recordIdsOf(batch, 'batch.ingredientAdded');
      if (now <= limit) {
        const words = say('brew-maximum.useUp', { advised: timeOf(season, advised), limit: timeOf(season, limit) });
        return due(book, now <= advised ? advised : limit, say('due.drawBy'), words, { recordIds });
      }
      // A tank that was drawn from already is judged by its draws; what is left may be a rest nobody recorded.
      if (loadsOut(batch).length > 0) return null;
      return caution(book, say('brew-maximum.reached', { limit: timeOf(season, limit) }), { recordIds, since: limit });
    },
  },
});
