import { z } from 'zod';
import { due, met, notApplicable, unknown, caution } from '../engine/judgement.ts';
import { hours } from '../engine/parameter.ts';
import { tankRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { judged } from '../judging/by-standing.ts';
import { brewingSince, cameToNothing, loadsOut, recordIdsOf, teaLeft } from '../judging/draws.ts';
import { atLeast, hourMs } from '../judging/span.ts';
import { besideLimit, spanFigure, spanWords, timeOf } from '../judging/when.ts';
import { say } from '../words/index.ts';

/** Brew time of each draw, from below. Judged by the book in force at the draw. */
export const brewMinimum = defineRule({
  id: 'brew-minimum',
  revision: 1,
  title: 'Brewed long enough',
  reason:
    'Tea drawn early has had little time for its organisms to grow and use up the feed. A brew cut short is the commonest cause of tea that does nothing, so the time is looked at draw by draw.',
  basis: 'practice',
  citation: 'common practice, no source',
  severity: 'minor',
  packs: ['practice'],
  parameters: () =>
    z.object({
      advisedHours: hours(24, 'Brew time that you aim for.'),
      limitHours: hours(20, 'Least brew time that you accept.'),
    }),
  chosenAt: 'the draw; while nothing was drawn, brew start',
  looksAt: {
    kinds: ['batch', 'lot', 'material'],
    records: [...tankRecords],
  },
  judge: {
    draw({ batch, draw }, { limits, season }) {
      const book = limits(draw.at.at);
      if (batch.kind === 'extract') return notApplicable(book, say('brew-minimum.extract'));
      if (batch.receivedTea !== null) return notApplicable(book, say('common.brewedElsewhere'));
      if (cameToNothing(draw)) return notApplicable(book, say('common.cameToNothing'));
      const { brewHours, brewFrom, recordIds } = draw;
      if (brewHours === null || brewFrom === null) {
        return unknown(book, say('common.noIngredientBefore'), {
          recordIds,
        });
      }
      const { advisedHours: advised, limitHours: limit } = book.parameters;
      const since = timeOf(season, brewFrom.at);
      const said = besideLimit(brewHours, limit);
      return judged(
        book,
        atLeast(brewHours, limit, advised),
        {
          within: say('brew-minimum.within', { said, since }),
          pastAdvised: say('brew-minimum.pastAdvised', { said, since, limit, advised }),
          over: say('brew-minimum.over', { said, since, limit }),
          unsure: say('brew-minimum.unsure', { brewHours: spanWords(brewHours), limit, advised }),
        },
        { figures: [spanFigure('brewHours', brewHours, 'h', { advised, limit })], recordIds },
      );
    },
    batch(batch, { limits, now, season }) {
      const from = brewingSince(batch);
      if (from === null || loadsOut(batch).length > 0 || !teaLeft(batch) || batch.kind === 'extract') return null;
      const book = limits(from.at);
      const { advisedHours: advised, limitHours: limit } = book.parameters;
      const recordIds = recordIdsOf(batch, 'batch.ingredientAdded', 'batch.airStopped');
      if (batch.airOff !== null && batch.airOff.at < from.at + limit * hourMs) {
        const brewed = (batch.airOff.at - from.at) / hourMs;
        return caution(book, say('brew-minimum.airOff', { brewed, limit }), { recordIds });
      }
      const at = from.at + advised * hourMs;
      const words = say('brew-minimum.reached', {
        advised,
        at: timeOf(season, at),
        limit,
        least: timeOf(season, from.at + limit * hourMs),
      });
      return now < at && batch.airOff === null
        ? due(book, at, say('due.drawFrom'), words, { recordIds })
        : met(book, words, { recordIds });
    },
  },
});
