import type { Batch, Instant } from '@furrowmark/domain';
import { z } from 'zod';
import { caution, due, notApplicable, unknown } from '../engine/judgement.ts';
import { hours } from '../engine/parameter.ts';
import { tankRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { judged } from '../judging/by-standing.ts';
import { brewingSince, cameToNothing, loadsOut, recordIdsOf, teaLeft } from '../judging/draws.ts';
import { atMost, hourMs } from '../judging/span.ts';
import { besideLimit, hoursWords, spanFigure, spanWords, timeWords } from '../judging/when.ts';

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
  parameters: z.object({
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
      if (batch.receivedTea !== null) return notApplicable(book, 'This tea was brewed elsewhere.');
      if (cameToNothing(draw)) return notApplicable(book, 'None of this load was applied.');
      const { brewHours, brewFrom, recordIds } = draw;
      if (brewHours === null || brewFrom === null) {
        return unknown(book, 'No ingredient is recorded before this draw: record when the first one went in.', {
          recordIds,
        });
      }
      const food = foodIn(batch, draw.at.at);
      const p = book.parameters;
      const fed = { advised: p.withFoodAdvisedHours, limit: p.withFoodLimitHours, words: 'with microbial food' };
      const plain = {
        advised: p.withoutFoodAdvisedHours,
        limit: p.withoutFoodLimitHours,
        words: 'without microbial food',
      };
      const { advised, limit, words } = food === false ? plain : fed;
      const standing = atMost(brewHours, limit, advised);
      const evidence = { figures: [spanFigure('brewHours', brewHours, 'h', { advised, limit })], recordIds };
      if (food === null && standing !== atMost(brewHours, plain.limit, plain.advised)) {
        return unknown(
          book,
          `Brewed ${spanWords(brewHours)}; whether microbial food was in is not known, as a lot's material is not recorded.`,
          evidence,
        );
      }
      const said = `${besideLimit(brewHours, limit)} since ${timeWords(season, brewFrom.at)} ${words}`;
      return judged(
        book,
        standing,
        {
          within: `Brewed ${said}.`,
          pastAdvised: `Brewed ${said}: within your limit of ${hoursWords(limit)}, past the ${hoursWords(advised)} that you advise.`,
          over: `Brewed ${said}; the limit is ${hoursWords(limit)}.`,
          unsure: `Brewed ${spanWords(brewHours)} ${words}, as the times are not exact; the limit is ${hoursWords(limit)}, advised ${hoursWords(advised)}.`,
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
        const words = `Use the tea up by ${timeWords(season, advised)}, at the latest by ${timeWords(season, limit)}.`;
        return due(book, now <= advised ? advised : limit, 'draw the tea by this time', words, { recordIds });
      }
      // A tank that was drawn from already is judged by its draws; what is left may be a rest nobody recorded.
      if (loadsOut(batch).length > 0) return null;
      return caution(
        book,
        `The tea reached the longest brew time of your limit at ${timeWords(season, limit)} and no draw is recorded: what is drawn later is outside it.`,
        { recordIds, since: limit },
      );
    },
  },
});
