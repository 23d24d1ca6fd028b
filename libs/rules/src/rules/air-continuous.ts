import { z } from 'zod';
import { due, met, notApplicable, unknown, worst } from '../engine/judgement.ts';
import { minutes } from '../engine/parameter.ts';
import { checkRecords, tankRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { judged } from '../judging/by-standing.ts';
import { recordIdsOf, teaLeft } from '../judging/draws.ts';
import { atMost, minuteMs } from '../judging/span.ts';
import { besideLimit, hoursWords, spanFigure, spanWords, timeWords } from '../judging/when.ts';

const minutesWords = (value: number): string => hoursWords(value / 60);

/** Longest interruption of the air once food is in. */
export const airContinuous = defineRule({
  id: 'air-continuous',
  revision: 1,
  title: 'Air kept on while brewing',
  reason:
    'Once the food is in, the organisms use up the oxygen within minutes to an hour when the air stops. A long gap can turn the brew although the reading the next morning looks well.',
  basis: 'practice',
  citation: 'common practice, no source',
  severity: 'minor',
  packs: ['practice'],
  parameters: z.object({
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
      if (batch.kind !== 'aeratedTea') return notApplicable(book, 'Only aerated tea needs air throughout.');
      if (start === null) return notApplicable(book, 'No food is in yet.');
      if (batch.airStarts.length === 0) {
        return unknown(book, 'No air is recorded: record when it went on.', {
          recordIds: recordIdsOf(batch, 'batch.ingredientAdded'),
        });
      }
      const during = batch.interruptions.filter((each) => each.duringBrew);
      const judgements = during.flatMap((gap) => {
        if (gap.minutes === null) return [];
        const at = limits(gap.stopped.at);
        const { advisedMinutes: advised, limitMinutes: limit } = at.parameters;
        const said = `The air was off for ${besideLimit(gap.minutes, limit, minutesWords)} from ${timeWords(season, gap.stopped.at)}`;
        const after = gap.checkedAfter ? '' : ' Nobody checked oxygen or odour before the next draw.';
        return judged(
          at,
          atMost(gap.minutes, limit, advised),
          {
            within: `${said}.`,
            pastAdvised: `${said}: within your limit of ${minutesWords(limit)}, past the ${minutesWords(advised)} that you advise.${after}`,
            over: `${said}; the limit is ${minutesWords(limit)}.${after}`,
            unsure: `The air was off for ${spanWords(gap.minutes, minutesWords)}, as the times are not exact; the limit is ${minutesWords(limit)}, advised ${minutesWords(advised)}.${after}`,
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
              'get the air back on by this time',
              `The air stopped at ${timeWords(season, open.stopped.at)}: get it back on by ${timeWords(season, end)}, or count the tea as held.`,
              {
                recordIds: open.recordIds,
              },
            ),
          );
        }
      }
      return worst(judgements) ?? met(book, 'No interruption of the air is recorded while food was in.');
    },
  },
});
