import type { Batch, Moment } from '@furrowmark/domain';
import { z } from 'zod';
import { broken, caution, due, met, notApplicable, unknown, worst, type Judgement } from '../engine/judgement.ts';
import { days } from '../engine/parameter.ts';
import { tankRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { judged } from '../judging/by-standing.ts';
import { cleanedBetween } from '../judging/cleaned-between.ts';
import { lastDrawAt, teaLeft } from '../judging/draws.ts';
import { atMost, elapsed } from '../judging/span.ts';
import { spanFigure, spanWords, timeOf } from '../judging/when.ts';
import { say } from '../words/index.ts';

const dayMs = 86_400_000;

/**
 * When the last tea left a tank: its last draw or loss, or the closing where something was left until then. Only what
 * happened before `until` counts: a batch is often closed on paper after the next fill.
 */
function leftAt(batch: Batch, until = Infinity): Moment | null {
  const rest = batch.closed !== null && (batch.closed.data.remainingVolume?.value ?? 0) > 0 ? [batch.closed.at] : [];
  const left = [...batch.draws.map(({ at }) => at), ...batch.losses.map(({ at }) => at), ...rest];
  const filled = batch.fills.findLast(({ finished }) => finished.at <= until)?.finished;
  const all = [...(filled === undefined ? [] : [filled]), ...left.filter(({ at }) => at <= until)];
  // The latest of times that are not all sure is sure only from the latest of their beginnings to the latest of their ends.
  const latest = (of: (moment: Moment) => number): number => Math.max(...all.map(of));
  return all.length === 0
    ? null
    : { at: latest(({ at }) => at), from: latest(({ from }) => from), to: latest(({ to }) => to) };
}

/** Since when there has been tea in the tank without it having been empty. */
function fullSince(batch: Batch): Moment | null {
  let since: Moment | null = null;
  let empty = true;
  for (const { at, litres } of batch.content) {
    if (empty && litres.gt(0)) since = at;
    empty = litres.lte(0);
  }
  return since;
}

/** Cleaned between two batches, and a continuous brewer emptied often enough. */
export const vesselClean = defineRule({
  id: 'vessel-clean',
  revision: 2,
  title: 'Tank cleaned since the last tea',
  reason:
    'The film that a brew leaves on wall, air line and diffusers turns foul and seeds the next one. A tank that is topped up and never emptied grows the same film, only slower.',
  basis: 'practice',
  citation: 'common practice, no source; clean equipment: NOSB Compost Tea Task Force report, 2004, from memory',
  severity: 'minor',
  packs: ['practice'],
  parameters: () =>
    z.object({
      advisedDays: days(7, 'Days that a brewer may run before it is emptied and cleaned: aim.'),
      limitDays: days(14, 'Longest that a brewer may run before it is emptied and cleaned.'),
    }),
  brokenWord: { en: 'not cleaned in time', es: 'sin lavar a tiempo' },
  chosenAt: 'the first fill',
  looksAt: {
    kinds: ['batch', 'vessel'],
    records: [...tankRecords, 'vessel.registered', 'vessel.revised', 'vessel.cleaned'],
  },
  judge: {
    batch(batch, { limits, now, season, reach }) {
      const fill = batch.fills[0];
      const book = limits(fill?.started.at ?? now);
      if (fill === undefined || batch.vesselId === null) return notApplicable(book, say('common.noFill'));
      const vessel = season.vessel(batch.vesselId);
      const judgements: Judgement[] = [];
      const before = reach.filledBefore(batch.vesselId, fill.started.at);
      const left = before === null ? null : leftAt(before, fill.started.at);
      const code = vessel?.registered.code ?? say('vessel-clean.theTank');
      const cleanings = vessel?.cleanings ?? [];
      if (before === null || left === null) {
        const cleaning = cleanings.findLast(({ at }) => at.at <= fill.started.at);
        judgements.push(
          cleaning === undefined
            ? notApplicable(book, say('vessel-clean.noEarlier', { code }))
            : met(book, say('vessel-clean.cleaned', { code, at: timeOf(season, cleaning.at.at) }), {
                recordIds: [cleaning.id, fill.recordId],
              }),
        );
      } else {
        const between = cleanedBetween(cleanings, left, fill.started);
        const said = say('vessel-clean.said', { code, at: timeOf(season, fill.started.at), before: before.code });
        if (between === null) {
          const evidence = { recordIds: [fill.recordId], since: fill.started.at };
          judgements.push(broken(book, say('vessel-clean.notCleaned', { said }), evidence));
        } else {
          const { cleaning, sure } = between;
          const evidence = { recordIds: [cleaning.id, fill.recordId] };
          const words = { said, at: timeOf(season, cleaning.at.at) };
          judgements.push(
            !sure
              ? unknown(book, say('vessel-clean.unsureBetween', { said }), evidence)
              : cleaning.data.rinsed
                ? met(book, say('vessel-clean.cleanedBetween', words), evidence)
                : caution(book, say('vessel-clean.notRinsed', words), evidence),
          );
        }
      }
      const since = fullSince(batch);
      if (since !== null) {
        const { advisedDays: advised, limitDays: limit } = limits(since.at).parameters;
        const running = teaLeft(batch);
        const end = running ? null : (lastDrawAt(batch) ?? leftAt(batch));
        if (end === null) {
          const [first, last] = [since.at + advised * dayMs, since.at + limit * dayMs];
          judgements.push(
            now > last
              ? broken(book, say('vessel-clean.fullTooLong', { code, since: timeOf(season, since.at), limit }), {
                  recordIds: [fill.recordId],
                  since: last,
                })
              : due(
                  book,
                  now <= first ? first : last,
                  say('due.emptyTank'),
                  say('vessel-clean.emptyBy', {
                    code,
                    since: timeOf(season, since.at),
                    first: timeOf(season, first),
                    last: timeOf(season, last),
                  }),
                  { recordIds: [fill.recordId] },
                ),
          );
        } else if (end.at > since.at) {
          const run = elapsed(since, end, dayMs);
          const words = say('vessel-clean.run', { code, run: spanWords(run, 'days') });
          const standing = atMost(run, limit, advised);
          if (standing !== 'within') {
            judgements.push(
              judged(
                book,
                standing,
                {
                  within: say('common.stop', { said: words }),
                  pastAdvised: say('vessel-clean.pastAdvised', { said: words, limit, advised }),
                  over: say('vessel-clean.over', { said: words, limit }),
                  unsure: say('vessel-clean.unsure', { said: words, limit, advised }),
                },
                { figures: [spanFigure('runDays', run, 'd', { advised, limit })], recordIds: [fill.recordId] },
              ),
            );
          }
        }
      }
      return worst(judgements);
    },
  },
});
