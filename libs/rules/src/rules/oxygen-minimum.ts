import type { Batch, OxygenReading, Season } from '@furrowmark/domain';
import { z } from 'zod';
import { broken, caution, due, met, notApplicable, unknown, worst, type Judgement } from '../engine/judgement.ts';
import { amount, minutes } from '../engine/parameter.ts';
import { checkRecords, tankRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { lastDrawAt, recordIdsOf } from '../judging/draws.ts';
import { milligramBounds, readingWords, surelyBelow, type Bounds } from '../judging/reading.ts';
import { elapsed, hourMs, minuteMs } from '../judging/span.ts';
import { timeOf } from '../judging/when.ts';
import { oxygenChecked } from './oxygen-checked.ts';
import { say, type Said } from '../words/index.ts';

/** What the reading as written says about the true value: a strip between two pads, a meter below its range. */
function bounds(season: Season, reading: OxygenReading): Bounds {
  const record = season.record(reading.recordId);
  const written = record?.type === 'batch.oxygenMeasured' ? milligramBounds(record.data.dissolvedOxygen) : null;
  return written ?? { least: reading.mgPerL, most: reading.mgPerL };
}

function written(season: Season, reading: OxygenReading): Said {
  const record = season.record(reading.recordId);
  return record?.type === 'batch.oxygenMeasured'
    ? readingWords(record.data.dissolvedOxygen)
    : say('reading.mgPerL', { value: reading.mgPerL });
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
  revision: 2,
  title: 'Oxygen high enough',
  reason:
    'The tea is kept aerobic so that organisms which need oxygen outgrow those that do not. No regulation sets a figure; this one is your own, and a low reading soon put right weighs less than one left alone.',
  basis: 'practice',
  citation: 'common practice, no source',
  severity: 'minor',
  packs: ['practice'],
  parameters: () =>
    z.object({
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
      if (batch.kind !== 'aeratedTea') return notApplicable(atStart, say('oxygen-minimum.onlyAerated'));
      if (start === null) return notApplicable(atStart, say('common.noFood'));
      const readings = readingsThatCount(batch);
      if (readings.length === 0) {
        const recordIds = recordIdsOf(batch, 'batch.ingredientAdded');
        if (!reach.hasOxygenMeter()) {
          return notApplicable(atStart, say('oxygen-minimum.noMeter'));
        }
        const first = start.at + oxygenChecked.limitsIn(book, start.at).parameters.advisedHours * hourMs;
        return now <= first && lastDrawAt(batch) === null
          ? due(
              atStart,
              first,
              say('due.recordOxygen'),
              say('oxygen-minimum.firstDue', { first: timeOf(season, first) }),
              {
                recordIds,
              },
            )
          : unknown(atStart, say('oxygen-minimum.none'), { recordIds });
      }
      const judgements = readings.map((reading, i): Judgement => {
        const at = limits(reading.at.at);
        const { minimumMgPerL: limit, correctedMinutes } = at.parameters;
        const within = bounds(season, reading);
        const { least, most } = within;
        const said = (): Said =>
          say('oxygen-minimum.reading', { value: written(season, reading), at: timeOf(season, reading.at.at) });
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
        if (least >= limit) return met(at, () => say('oxygen-minimum.was', { said: said() }), evidence);
        if (!surelyBelow(within, limit)) {
          return unknown(at, () => say('oxygen-minimum.cannotTell', { said: said(), limit }), evidence);
        }
        const next = readings.slice(i + 1).find((later) => bounds(season, later).least >= limit);
        const low = say('oxygen-minimum.low', { said: said(), limit });
        if (next === undefined) {
          const by = reading.at.at + correctedMinutes * minuteMs;
          if (now <= by && lastDrawAt(batch) === null) {
            return due(
              at,
              by,
              say('due.recordOxygen'),
              say('oxygen-minimum.readAgain', { low, by: timeOf(season, by) }),
              evidence,
            );
          }
          return broken(at, say('oxygen-minimum.leftAlone', { low }), evidence);
        }
        const took = elapsed(reading.at, next.at, minuteMs);
        const both = { ...evidence, recordIds: [reading.recordId, next.recordId] };
        const corrected = say('oxygen-minimum.corrected', { low, value: written(season, next), took: took.value / 60 });
        if (took.most <= correctedMinutes) return caution(at, say('common.stop', { said: corrected }), both);
        if (took.least > correctedMinutes) {
          return broken(at, say('oxygen-minimum.tooLate', { corrected, limit: correctedMinutes / 60 }), both);
        }
        return unknown(at, say('oxygen-minimum.unsure', { corrected, limit: correctedMinutes / 60 }), both);
      });
      const all = worst(judgements, (n) => say('oxygen-minimum.more', { n }));
      if (all?.outcome !== 'met') return all;
      const counted = readings.filter(({ at }) => limits(at.at).enabled);
      const lowest = Math.min(...counted.map((reading) => reading.mgPerL));
      return { ...all, message: say('oxygen-minimum.lowest', { n: counted.length, lowest }) };
    },
  },
});
