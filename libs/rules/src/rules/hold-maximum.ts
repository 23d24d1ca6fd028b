import { hoursOver, type Batch, type Draw, type Span } from '@furrowmark/domain';
import { z } from 'zod';
import { caution, due, notApplicable, unknown } from '../engine/judgement.ts';
import { hours } from '../engine/parameter.ts';
import { checkRecords, tankRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { judged } from '../judging/by-standing.ts';
import { cameToNothing, loadsOut, recordIdsOf, teaLeft } from '../judging/draws.ts';
import { atMost, hourMs } from '../judging/span.ts';
import { besideLimit, spanFigure, spanWords, timeOf } from '../judging/when.ts';
import { airContinuous } from './air-continuous.ts';
import { say } from '../words/index.ts';

/** Oxygen readings and odour checks made after the tea's last air and not after the application. */
function checksWhileHeld(batch: Batch, draw: Draw): readonly string[] {
  const { lastAir, appliedUntil } = draw;
  if (lastAir === null || appliedUntil === null) return [];
  return [
    ...batch.oxygen.map(({ recordId, at }) => ({ id: recordId, at })),
    ...batch.checks.filter(({ data }) => data.odour !== undefined).map(({ id, at }) => ({ id, at })),
  ]
    .filter(({ at }) => at.to > lastAir.from && at.from <= appliedUntil.to)
    .map(({ id }) => id);
}

const plus = (a: Span, b: Span): Span => ({
  value: a.value + b.value,
  least: a.least + b.least,
  most: a.most + b.most,
});

/** Hold time of each draw: the tea's last air to the end of its application. */
export const holdMaximum = defineRule({
  id: 'hold-maximum',
  revision: 1,
  title: 'Applied soon after the air went off',
  reason:
    'Without air the organisms use up what oxygen is left, and the tea turns. The clock runs from the last air that the tea had to the end of its application, load by load.',
  basis: 'practice',
  citation: 'common practice, no source',
  severity: 'minor',
  packs: ['practice'],
  parameters: () =>
    z.object({
      advisedHours: hours(6, 'Hold time that you aim to stay within.'),
      limitHours: hours(8, 'Longest hold time that you accept.'),
      checkAfterHours: hours(2, 'Held longer than this, oxygen or odour is checked before use.'),
    }),
  chosenAt: "the tea's last air",
  looksAt: {
    kinds: ['batch', 'application'],
    records: [...tankRecords, ...checkRecords],
  },
  judge: {
    draw({ batch, draw }, { limits, now, season, book: rules }) {
      const book = limits(draw.lastAir?.at ?? draw.at.at);
      if (cameToNothing(draw)) return notApplicable(book, say('common.cameToNothing'));
      const { lastAir, recordIds } = draw;
      if (lastAir === null) {
        return batch.kind === 'aeratedTea' && batch.receivedTea === null
          ? unknown(book, say('hold-maximum.noAir'), {
              recordIds,
            })
          : notApplicable(book, say('hold-maximum.noAirHere'));
      }
      const { advisedHours: advised, limitHours: limit, checkAfterHours: checkAfter } = book.parameters;
      const off = timeOf(season, lastAir.at);
      const allowed = airContinuous.limitsIn(rules, lastAir.at).parameters.limitMinutes;
      const unchecked = hoursOver(draw.uncheckedInterruptions, allowed);
      const since = draw.airToApplicationHours;
      if (since === null) {
        const end = lastAir.at + limit * hourMs;
        return now <= end
          ? due(
              book,
              now <= lastAir.at + advised * hourMs ? lastAir.at + advised * hourMs : end,
              say('due.applyBy'),
              say('hold-maximum.due', {
                off,
                advised: timeOf(season, lastAir.at + advised * hourMs),
                end: timeOf(season, end),
              }),
              { recordIds },
            )
          : unknown(book, say('hold-maximum.loadLost', { off, limit, end: timeOf(season, end) }), {
              recordIds,
              since: end,
            });
      }
      const holdHours = plus(since, unchecked);
      const checks = checksWhileHeld(batch, draw);
      const standing = atMost(holdHours, limit, advised);
      const evidence = {
        figures: [
          spanFigure('holdHours', holdHours, 'h', { advised, limit }),
          ...(unchecked.value > 0 ? [{ name: 'uncheckedInterruptionHours', value: unchecked.value, unit: 'h' }] : []),
        ],
        recordIds: [...recordIds, ...checks],
      };
      const said = say('hold-maximum.said', { holdHours: besideLimit(holdHours, limit), off });
      const counted = unchecked.value > 0 ? say('hold-maximum.counted', { unchecked: unchecked.value }) : null;
      if (standing === 'within' && checks.length === 0 && holdHours.least > checkAfter) {
        return caution(book, say('hold-maximum.notChecked', { said, checkAfter, counted }), evidence);
      }
      return judged(
        book,
        standing,
        {
          within: say('hold-maximum.within', { said, counted }),
          pastAdvised: say('hold-maximum.pastAdvised', { said, limit, advised, counted }),
          over: say('hold-maximum.over', { said, limit, counted }),
          unsure: say('hold-maximum.unsure', { holdHours: spanWords(holdHours), limit, advised, counted }),
        },
        evidence,
      );
    },
    batch(batch, { limits, now, season }) {
      const { airOff } = batch;
      if (airOff === null || batch.brewStart === null || !teaLeft(batch)) return null;
      const book = limits(airOff.at);
      const { advisedHours: advised, limitHours: limit } = book.parameters;
      const end = airOff.at + limit * hourMs;
      const recordIds = recordIdsOf(batch, 'batch.airStopped');
      if (now <= end) {
        const first = airOff.at + advised * hourMs;
        return due(
          book,
          now <= first ? first : end,
          say('due.applyBy'),
          say('hold-maximum.airOff', {
            airOff: timeOf(season, airOff.at),
            first: timeOf(season, first),
            end: timeOf(season, end),
          }),
          { recordIds },
        );
      }
      if (loadsOut(batch).length > 0) return null;
      return unknown(
        book,
        say('hold-maximum.teaLost', { airOff: timeOf(season, airOff.at), limit, end: timeOf(season, end) }),
        { recordIds, since: end },
      );
    },
  },
});
