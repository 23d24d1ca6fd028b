import { z } from 'zod';
import { due, met, notApplicable, unknown, worst } from '../engine/judgement.ts';
import { minutes } from '../engine/parameter.ts';
import { checkRecords, tankRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { judged } from '../judging/by-standing.ts';
import { recordIdsOf, teaLeft } from '../judging/draws.ts';
import { atMost, minuteMs } from '../judging/span.ts';
import { besideLimit, spanFigure, spanWords, timeOf } from '../judging/when.ts';
import { say } from '../words/index.ts';

/** Longest interruption of the air once food is in. */
export const airContinuous = defineRule({
  id: 'air-continuous',
  revision: 2,
  title: 'Air kept on while brewing',
  reason:
    'Once the food is in, the organisms use up the oxygen within minutes to an hour when the air stops. A long gap can turn the brew although the reading the next morning looks well.',
  basis: 'practice',
  citation: 'common practice, no source',
  severity: 'minor',
  packs: ['practice'],
  parameters: () =>
    z.object({
      advisedMinutes: minutes(15, 'An interruption shorter than this does no harm.'),
      limitMinutes: minutes(60, 'Longest interruption that you accept once food is in.'),
    }),
  chosenAt: 'the moment the air stopped',
  looksAt: {
    kinds: ['batch'],
    records: [...tankRecords, ...checkRecords],
  },
  judge: {
    batch(batch, { limits, now, season }) {
      const start = batch.brewStart;
      const book = limits(start?.at ?? now);
      if (batch.kind !== 'aeratedTea') return notApplicable(book, say('air-continuous.onlyAerated'));
      if (start === null) return notApplicable(book, say('common.noFood'));
      if (batch.airStarts.length === 0) {
        return unknown(book, say('air-continuous.noAir'), {
          recordIds: recordIdsOf(batch, 'batch.ingredientAdded'),
        });
      }
      const during = batch.interruptions.filter((each) => each.duringBrew);
      const judgements = during.flatMap((gap) => {
        if (gap.minutes === null) return [];
        const at = limits(gap.stopped.at);
        const { advisedMinutes: advised, limitMinutes: limit } = at.parameters;
        const said = say('air-continuous.off', {
          minutes: besideLimit(gap.minutes, limit, 'minutes'),
          stopped: timeOf(season, gap.stopped.at),
        });
        const after = gap.checkedAfter ? null : say('air-continuous.unchecked');
        return judged(
          at,
          atMost(gap.minutes, limit, advised),
          {
            within: say('common.stop', { said }),
            pastAdvised: say('air-continuous.pastAdvised', { said, limit, advised, after }),
            over: say('air-continuous.over', { said, limit, after }),
            unsure: say('air-continuous.unsure', {
              minutes: spanWords(gap.minutes, 'minutes'),
              limit,
              advised,
              after,
            }),
          },
          {
            figures: [spanFigure('minutesOff', gap.minutes, 'min', { advised, limit })],
            recordIds: gap.recordIds,
            since: gap.stopped.at,
          },
        );
      });
      const open = during.find((gap) => gap.restarted === null);
      if (open !== undefined && (open.cause === 'powerCut' || open.cause === 'breakdown') && teaLeft(batch)) {
        const at = limits(open.stopped.at);
        const end = open.stopped.at + at.parameters.limitMinutes * minuteMs;
        if (now <= end) {
          judgements.push(
            due(
              at,
              end,
              say('due.airBack'),
              say('air-continuous.stopped', { stopped: timeOf(season, open.stopped.at), end: timeOf(season, end) }),
              {
                recordIds: open.recordIds,
              },
            ),
          );
        }
      }
      return worst(judgements) ?? met(book, say('air-continuous.none'));
    },
  },
});
