import type { Batch, Moment } from '@furrowmark/domain';
import { z } from 'zod';
import { broken, due, met, notApplicable, unknown, worst, type Judgement } from '../engine/judgement.ts';
import { hours } from '../engine/parameter.ts';
import { checkRecords, tankRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { judged } from '../judging/by-standing.ts';
import { brewingEnded, cameToNothing } from '../judging/draws.ts';
import { atMost, elapsed, hourMs } from '../judging/span.ts';
import { besideLimit, hoursWords, spanFigure, spanWords, timeWords } from '../judging/when.ts';

interface Check {
  readonly id: string;
  readonly at: Moment;
}

/** Oxygen readings; where the operation has no meter, what eyes and nose found. */
function checksOf(batch: Batch, hasMeter: boolean): readonly Check[] {
  return hasMeter
    ? batch.oxygen.map(({ recordId, at }) => ({ id: recordId, at }))
    : batch.checks.map(({ id, at }) => ({ id, at }));
}

/** Longest time without a check while brewing, and the last check before each draw. */
export const oxygenChecked = defineRule({
  id: 'oxygen-checked',
  revision: 1,
  title: 'Oxygen looked at often enough',
  reason:
    'A brew that turns is saved only while somebody is looking. The longest gap between readings tells how long nobody would have noticed; the last one before a draw tells what went out.',
  basis: 'practice',
  citation: 'common practice, no source',
  severity: 'minor',
  packs: ['practice'],
  parameters: z.object({
    advisedHours: hours(12, 'Time between readings that you aim for.'),
    limitHours: hours(16, 'Longest time between readings that you accept.'),
    beforeDrawHours: hours(4, 'A draw is preceded by a reading not older than this.'),
  }),
  chosenAt: 'the beginning of the gap; the draw',
  looksAt: {
    kinds: ['batch', 'instrument'],
    records: [...tankRecords, ...checkRecords],
  },
  judge: {
    draw({ batch, draw }, { limits, season, reach }) {
      const book = limits(draw.at.at);
      const start = batch.brewStart;
      if (batch.kind !== 'aeratedTea' || start === null || batch.receivedTea !== null) {
        return notApplicable(book, 'Only aerated tea brewed here is checked before a draw.');
      }
      if (cameToNothing(draw)) return notApplicable(book, 'None of this load was applied.');
      const meter = reach.hasOxygenMeter();
      const what = meter ? 'oxygen reading' : 'check of surface, odour or air';
      const before = book.parameters.beforeDrawHours;
      const last = checksOf(batch, meter).findLast(({ at }) => at.at <= draw.at.at);
      if (last === undefined) {
        return broken(
          book,
          `No ${what} is recorded before this draw; the last one should be at most ${hoursWords(before)} old.`,
          {
            recordIds: draw.recordIds,
          },
        );
      }
      const age = elapsed(last.at, draw.at, hourMs);
      return judged(
        book,
        atMost(age, before),
        {
          within: `The last ${what} was ${hoursWords(age.value)} before the draw.`,
          pastAdvised: `The last ${what} was ${hoursWords(age.value)} before the draw.`,
          over: `The last ${what} was ${besideLimit(age, before)} before the draw at ${timeWords(season, draw.at.at)}; the limit is ${hoursWords(before)}.`,
          unsure: `The last ${what} was ${spanWords(age)} before the draw, as the times are not exact; the limit is ${hoursWords(before)}.`,
        },
        {
          figures: [spanFigure('lastBeforeDrawHours', age, 'h', { limit: before })],
          recordIds: [...draw.recordIds, last.id],
        },
      );
    },
    batch(batch, { limits, now, season, reach }) {
      const start = batch.brewStart;
      const atStart = limits(start?.at ?? now);
      if (batch.kind !== 'aeratedTea') return notApplicable(atStart, 'Only aerated tea is checked for oxygen.');
      if (start === null) return notApplicable(atStart, 'No food is in yet.');
      const meter = reach.hasOxygenMeter();
      const [what, doThis] = meter ? ['oxygen reading', 'record oxygen'] : ['check', 'look, smell and record'];
      const ended = brewingEnded(batch);
      const checks = checksOf(batch, meter).filter(
        ({ at }) => at.at >= start.at && (ended === null || at.at <= ended.at),
      );
      const points: readonly Check[] = [{ id: '', at: start }, ...checks];
      const judgements: Judgement[] = [];
      points.forEach((point, i) => {
        const next = points[i + 1]?.at ?? ended;
        const book = limits(point.at.at);
        const { advisedHours: advised, limitHours: limit } = book.parameters;
        const recordIds = [point.id, points[i + 1]?.id ?? ''].filter((id) => id !== '');
        const since = timeWords(season, point.at.at);
        if (next === null) {
          const [first, last] = [point.at.at + advised * hourMs, point.at.at + limit * hourMs];
          if (now <= last) {
            const at = now <= first ? first : last;
            judgements.push(
              due(
                book,
                at,
                doThis,
                `The next ${what} is due by ${timeWords(season, first)}, at the latest by ${timeWords(season, last)}.`,
                { recordIds },
              ),
            );
          } else if (point.at.from + limit * hourMs < now && point.at.to + limit * hourMs >= now) {
            judgements.push(
              unknown(book, `Since ${since}, a time that is not exact, no ${what} is recorded.`, { recordIds }),
            );
          } else {
            judgements.push(
              broken(
                book,
                `No ${what} is recorded since ${since}; the limit of ${hoursWords(limit)} ended at ${timeWords(season, last)}.`,
                { recordIds, since: last },
              ),
            );
          }
          return;
        }
        const gap = elapsed(point.at, next, hourMs);
        const said = `without ${meter ? 'an oxygen reading' : 'a check'} from ${since}`;
        judgements.push(
          judged(
            book,
            atMost(gap, limit, advised),
            {
              within: `At most ${hoursWords(gap.value)} ${said}.`,
              pastAdvised: `${besideLimit(gap, limit)} ${said}: within your limit of ${hoursWords(limit)}, past the ${hoursWords(advised)} that you advise.`,
              over: `${besideLimit(gap, limit)} ${said}; the limit is ${hoursWords(limit)}.`,
              unsure: `${spanWords(gap)} ${said}, as the times are not exact; the limit is ${hoursWords(limit)}, advised ${hoursWords(advised)}.`,
            },
            { figures: [spanFigure('gapHours', gap, 'h', { advised, limit })], recordIds, since: next.at },
          ),
        );
      });
      const longest = judgements.filter((each) => each.outcome === 'met').sort(byFigure)[0];
      const others = judgements.filter((each) => each.outcome !== 'met');
      const running = judgements.find((each) => each.outcome === 'due');
      const all = worst(others.length > 0 ? others : longest === undefined ? [] : [longest]);
      if (all === null) return met(atStart, 'Checked throughout.');
      return running?.dueAt === undefined || all.outcome === 'due'
        ? all
        : { ...all, next: { at: running.dueAt, what: doThis } };
    },
  },
});

const byFigure = (a: Judgement, b: Judgement): number =>
  Number(b.figures[0]?.value ?? 0) - Number(a.figures[0]?.value ?? 0);
