import type { Batch, Moment } from '@furrowmark/domain';
import { z } from 'zod';
import { broken, due, met, notApplicable, switchedOn, unknown, worst, type Judgement } from '../engine/judgement.ts';
import { hours } from '../engine/parameter.ts';
import { checkRecords, tankRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { judged } from '../judging/by-standing.ts';
import { brewingEnded, cameToNothing } from '../judging/draws.ts';
import { atMost, elapsed, hourMs } from '../judging/span.ts';
import { besideLimit, spanFigure, spanWords, timeOf } from '../judging/when.ts';
import { say } from '../words/index.ts';

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
  revision: 2,
  title: 'Oxygen looked at often enough',
  reason:
    'A brew that turns is saved only while somebody is looking. The longest gap between readings tells how long nobody would have noticed; the last one before a draw tells what went out.',
  basis: 'practice',
  citation: 'common practice, no source',
  severity: 'minor',
  packs: ['practice'],
  parameters: () =>
    z.object({
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
        return notApplicable(book, say('oxygen-checked.onlyBrewedHere'));
      }
      if (cameToNothing(draw)) return notApplicable(book, say('common.cameToNothing'));
      const meter = reach.hasOxygenMeter();
      const what = meter ? say('oxygen-checked.reading') : say('oxygen-checked.looked');
      const before = book.parameters.beforeDrawHours;
      const last = checksOf(batch, meter).findLast(({ at }) => at.at <= draw.at.at);
      if (last === undefined) {
        return broken(book, say('oxygen-checked.noneBefore', { what, before }), {
          recordIds: draw.recordIds,
        });
      }
      const age = elapsed(last.at, draw.at, hourMs);
      return judged(
        book,
        atMost(age, before),
        {
          within: say('oxygen-checked.last', { what, age: age.value }),
          pastAdvised: say('oxygen-checked.last', { what, age: age.value }),
          over: say('oxygen-checked.lastOver', {
            what,
            age: besideLimit(age, before),
            draw: timeOf(season, draw.at.at),
            before,
          }),
          unsure: say('oxygen-checked.lastUnsure', { what, age: spanWords(age), before }),
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
      if (batch.kind !== 'aeratedTea') return notApplicable(atStart, say('oxygen-checked.onlyAerated'));
      if (start === null) return notApplicable(atStart, say('common.noFood'));
      const meter = reach.hasOxygenMeter();
      const [what, doThis] = meter
        ? [say('oxygen-checked.reading'), say('due.recordOxygen')]
        : [say('oxygen-checked.check'), say('due.look')];
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
        const since = timeOf(season, point.at.at);
        if (next === null) {
          const [first, last] = [point.at.at + advised * hourMs, point.at.at + limit * hourMs];
          if (now <= last) {
            const at = now <= first ? first : last;
            judgements.push(
              due(
                book,
                at,
                doThis,
                say('oxygen-checked.next', { what, first: timeOf(season, first), last: timeOf(season, last) }),
                { recordIds },
              ),
            );
          } else if (point.at.to + limit * hourMs >= now) {
            judgements.push(unknown(book, say('oxygen-checked.unsureSince', { since, what }), { recordIds }));
          } else {
            judgements.push(
              broken(book, say('oxygen-checked.noneSince', { what, since, limit, last: timeOf(season, last) }), {
                recordIds,
                since: last,
              }),
            );
          }
          return;
        }
        const gap = elapsed(point.at, next, hourMs);
        const said = say('oxygen-checked.without', {
          what: meter ? say('oxygen-checked.aReading') : say('oxygen-checked.aCheck'),
          since,
        });
        judgements.push(
          judged(
            book,
            atMost(gap, limit, advised),
            {
              within: say('oxygen-checked.within', { gap: gap.value, said }),
              pastAdvised: say('oxygen-checked.pastAdvised', { gap: besideLimit(gap, limit), said, limit, advised }),
              over: say('oxygen-checked.over', { gap: besideLimit(gap, limit), said, limit }),
              unsure: say('oxygen-checked.unsure', { gap: spanWords(gap), said, limit, advised }),
            },
            { figures: [spanFigure('gapHours', gap, 'h', { advised, limit })], recordIds, since: next.at },
          ),
        );
      });
      const counted = switchedOn(judgements);
      const longest = counted.filter((each) => each.outcome === 'met').sort(byFigure)[0];
      const others = counted.filter((each) => each.outcome !== 'met');
      const running = counted.find((each) => each.outcome === 'due');
      const all = worst(others.length > 0 ? others : longest === undefined ? [] : [longest]);
      if (all === null) return met(atStart, say('oxygen-checked.throughout'));
      return running?.dueAt === undefined || all.outcome === 'due'
        ? all
        : { ...all, next: { at: running.dueAt, what: doThis } };
    },
  },
});

const byFigure = (a: Judgement, b: Judgement): number =>
  Number(b.figures[0]?.value ?? 0) - Number(a.figures[0]?.value ?? 0);
