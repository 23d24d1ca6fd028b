import type { Batch, OxygenReading, Season } from '@furrowmark/domain';
import { z } from 'zod';
import { broken, caution, due, met, notApplicable, unknown, worst, type Judgement } from '../engine/judgement.ts';
import { amount, minutes } from '../engine/parameter.ts';
import { checkRecords, tankRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { lastDrawAt, recordIdsOf } from '../judging/draws.ts';
import { milligramBounds, readingWords, surelyBelow, type Bounds } from '../judging/reading.ts';
import { elapsed, hourMs, minuteMs } from '../judging/span.ts';
import { figureWords, hoursWords, timeWords } from '../judging/when.ts';
import { oxygenChecked } from './oxygen-checked.ts';

/** What the reading as written says about the true value: a strip between two pads, a meter below its range. */
function bounds(season: Season, reading: OxygenReading): Bounds {
  const record = season.record(reading.recordId);
  const written = record?.type === 'batch.oxygenMeasured' ? milligramBounds(record.data.dissolvedOxygen) : null;
  return written ?? { least: reading.mgPerL, most: reading.mgPerL };
}

function written(season: Season, reading: OxygenReading): string {
  const record = season.record(reading.recordId);
  return record?.type === 'batch.oxygenMeasured'
    ? readingWords(record.data.dissolvedOxygen)
    : `${figureWords(reading.mgPerL)} mg/L`;
}

/** Readings from brew start to the last draw. */
function readingsThatCount(batch: Batch): readonly OxygenReading[] {
  const start = batch.brewStart;
  const last = lastDrawAt(batch);
  if (start === null) return [];
  return batch.oxygen.filter(({ at }) => at.to >= start.from && (last === null || at.from <= last.to));
}

/** Oxygen readings against the least that the operation accepts. */
export const oxygenMinimum = defineRule({
  id: 'oxygen-minimum',
  revision: 1,
  title: 'Oxygen high enough',
  reason:
    'The tea is kept aerobic so that organisms which need oxygen outgrow those that do not. No regulation sets a figure; this one is your own, and a low reading soon put right weighs less than one left alone.',
  basis: 'practice',
  citation: 'common practice, no source',
  severity: 'minor',
  packs: ['practice'],
  parameters: z.object({
    minimumMgPerL: amount('mg/L', 6, 'Least dissolved oxygen that you accept.'),
    correctedMinutes: minutes(60, 'A low reading followed within this time by a sufficient one counts as corrected.'),
  }),
  chosenAt: 'the reading',
  looksAt: {
    kinds: ['batch', 'instrument'],
    records: [...tankRecords, ...checkRecords],
  },
  judge: {
    batch(batch, { limits, now, season, reach, book }) {
      const start = batch.brewStart;
      const atStart = limits(start?.at ?? now);
      if (batch.kind !== 'aeratedTea') return notApplicable(atStart, 'Only aerated tea has an oxygen limit here.');
      if (start === null) return notApplicable(atStart, 'No food is in yet.');
      const readings = readingsThatCount(batch);
      if (readings.length === 0) {
        const recordIds = recordIdsOf(batch, 'batch.ingredientAdded');
        if (!reach.hasOxygenMeter()) {
          return notApplicable(atStart, 'There is no oxygen meter: what eyes and nose find stands in its place.');
        }
        const first = start.at + oxygenChecked.limitsIn(book, start.at).parameters.advisedHours * hourMs;
        return now <= first && lastDrawAt(batch) === null
          ? due(atStart, first, 'record oxygen', `The first oxygen reading is due by ${timeWords(season, first)}.`, {
              recordIds,
            })
          : unknown(atStart, 'No oxygen reading is recorded from brew start to the last draw.', { recordIds });
      }
      const judgements = readings.map((reading, i): Judgement => {
        const at = limits(reading.at.at);
        const { minimumMgPerL: limit, correctedMinutes } = at.parameters;
        const within = bounds(season, reading);
        const { least, most } = within;
        const said = (): string => `${written(season, reading)} at ${timeWords(season, reading.at.at)}`;
        const evidence = {
          figures: [
            {
              name: 'mgPerL',
              value: reading.mgPerL,
              unit: 'mg/L',
              ...(least === most ? {} : { range: [least, most] as const }),
              limit,
            },
          ],
          recordIds: [reading.recordId],
          since: reading.at.at,
        };
        if (least >= limit) return met(at, () => `Oxygen was ${said()}.`, evidence);
        if (!surelyBelow(within, limit)) {
          return unknown(
            at,
            () => `Oxygen read ${said()}, which does not tell whether it was at least ${limit} mg/L.`,
            evidence,
          );
        }
        const next = readings.slice(i + 1).find((later) => bounds(season, later).least >= limit);
        const low = `Oxygen was ${said()}, below ${limit} mg/L`;
        if (next === undefined) {
          const by = reading.at.at + correctedMinutes * minuteMs;
          if (now <= by && lastDrawAt(batch) === null) {
            return due(
              at,
              by,
              'record oxygen',
              `${low}: more air or less feed, and read again by ${timeWords(season, by)}.`,
              evidence,
            );
          }
          return broken(at, `${low}, and no sufficient reading followed.`, evidence);
        }
        const took = elapsed(reading.at, next.at, minuteMs);
        const both = { ...evidence, recordIds: [reading.recordId, next.recordId] };
        const corrected = `${low}; ${written(season, next)} ${hoursWords(took.value / 60)} later`;
        if (took.most <= correctedMinutes) return caution(at, `${corrected}.`, both);
        if (took.least > correctedMinutes) {
          return broken(at, `${corrected}, more than ${hoursWords(correctedMinutes / 60)}.`, both);
        }
        return unknown(
          at,
          `${corrected}; as the times are not exact, whether that was within ${hoursWords(correctedMinutes / 60)} is not sure.`,
          both,
        );
      });
      const all = worst(judgements, (n) => `${n} more ${n === 1 ? 'reading was' : 'readings were'} no better.`);
      const lowest = Math.min(...readings.map((reading) => reading.mgPerL));
      return all?.outcome === 'met'
        ? { ...all, message: `The lowest of ${readings.length} readings was ${figureWords(lowest)} mg/L.` }
        : all;
    },
  },
});
