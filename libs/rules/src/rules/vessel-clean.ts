import type { Batch, Moment } from '@furrowmark/domain';
import { z } from 'zod';
import { broken, caution, due, met, notApplicable, unknown, worst, type Judgement } from '../engine/judgement.ts';
import { days } from '../engine/parameter.ts';
import { tankRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { judged } from '../judging/by-standing.ts';
import { lastDrawAt, teaLeft } from '../judging/draws.ts';
import { atMost, elapsed } from '../judging/span.ts';
import { figureWords, spanFigure, spanWords, timeWords } from '../judging/when.ts';

const dayMs = 86_400_000;
const daysWords = (value: number): string => `${figureWords(value)} days`;

/**
 * When the last tea left a tank: its last draw or loss, or the closing where something was left until then. Only what
 * happened before `until` counts: a batch is often closed on paper after the next fill.
 */
function leftAt(batch: Batch, until = Infinity): Moment | null {
  const rest = batch.closed !== null && (batch.closed.data.remainingVolume?.value ?? 0) > 0 ? [batch.closed.at] : [];
  const left = [...batch.draws.map(({ at }) => at), ...batch.losses.map(({ at }) => at), ...rest];
  return left
    .filter(({ at }) => at <= until)
    .reduce<Moment | null>(
      (last, at) => (last === null || at.at > last.at ? at : last),
      batch.fills.findLast(({ finished }) => finished.at <= until)?.finished ?? null,
    );
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
  revision: 1,
  title: 'Tank cleaned since the last tea',
  reason:
    'The film that a brew leaves on wall, air line and diffusers turns foul and seeds the next one. A tank that is topped up and never emptied grows the same film, only slower.',
  basis: 'practice',
  citation: 'common practice, no source; clean equipment: NOSB compost tea task force report, 2004, from memory',
  severity: 'minor',
  packs: ['practice'],
  parameters: z.object({
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
      if (fill === undefined || batch.vesselId === null) return notApplicable(book, 'No fill is recorded yet.');
      const vessel = season.vessel(batch.vesselId);
      const judgements: Judgement[] = [];
      const before = reach.filledBefore(batch.vesselId, fill.started.at);
      const left = before === null ? null : leftAt(before, fill.started.at);
      const code = vessel?.registered.code ?? 'The tank';
      const cleanings = vessel?.cleanings ?? [];
      if (before === null || left === null) {
        const cleaning = cleanings.findLast(({ at }) => at.at <= fill.started.at);
        judgements.push(
          cleaning === undefined
            ? notApplicable(book, `No earlier tea in ${code} is recorded.`)
            : met(book, `${code} was cleaned at ${timeWords(season, cleaning.at.at)}.`, {
                recordIds: [cleaning.id, fill.recordId],
              }),
        );
      } else {
        const surely = cleanings.findLast(({ at }) => at.from >= left.to && at.to <= fill.started.from);
        const maybe = cleanings.findLast(({ at }) => at.to >= left.from && at.from <= fill.started.to);
        const said = `${code} was filled at ${timeWords(season, fill.started.at)} after ${before.code}`;
        if (surely !== undefined) {
          const evidence = { recordIds: [surely.id, fill.recordId] };
          judgements.push(
            surely.data.rinsed
              ? met(book, `${said}, cleaned at ${timeWords(season, surely.at.at)}.`, evidence)
              : caution(book, `${said}, cleaned at ${timeWords(season, surely.at.at)} but not rinsed.`, evidence),
          );
        } else if (maybe !== undefined) {
          judgements.push(
            unknown(book, `${said}; whether it was cleaned between them depends on times that are not exact.`, {
              recordIds: [maybe.id, fill.recordId],
            }),
          );
        } else {
          judgements.push(
            broken(book, `${said} without a cleaning recorded between them.`, {
              recordIds: [fill.recordId],
              since: fill.started.at,
            }),
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
              ? broken(
                  book,
                  `${code} has held tea since ${timeWords(season, since.at)} without being emptied; the limit is ${daysWords(limit)}.`,
                  { recordIds: [fill.recordId], since: last },
                )
              : due(
                  book,
                  now <= first ? first : last,
                  'empty and clean the tank',
                  `${code} has held tea since ${timeWords(season, since.at)}: empty and clean it by ${timeWords(season, first)}, at the latest by ${timeWords(season, last)}.`,
                  { recordIds: [fill.recordId] },
                ),
          );
        } else if (end.at > since.at) {
          const run = elapsed(since, end, dayMs);
          const words = `${code} held tea for ${spanWords(run, daysWords)} without being emptied`;
          const standing = atMost(run, limit, advised);
          if (standing !== 'within') {
            judgements.push(
              judged(
                book,
                standing,
                {
                  within: `${words}.`,
                  pastAdvised: `${words}: within your limit of ${daysWords(limit)}, past the ${daysWords(advised)} that you advise.`,
                  over: `${words}; the limit is ${daysWords(limit)}.`,
                  unsure: `${words}, as the times are not exact; the limit is ${daysWords(limit)}, advised ${daysWords(advised)}.`,
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
