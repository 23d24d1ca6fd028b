import { z } from 'zod';
import { caution, met, notApplicable, worst, type Judgement } from '../engine/judgement.ts';
import { percent } from '../engine/parameter.ts';
import { defineRule } from '../engine/rule.ts';
import { driftsOf, readingsBeside, whereRead } from '../judging/readings.ts';
import { dayOf } from '../judging/water.ts';
import { once, say } from '../words/index.ts';

/** A check that found the meter off: what it read since the last good one is in doubt. */
export const instrumentDrift = defineRule({
  id: 'instrument-drift',
  revision: 3,
  title: 'Meter found true',
  reason:
    'When a check finds a meter off, nobody knows since when. So every reading back to the last good check is looked at again, whatever it said.',
  basis: 'practice',
  citation: 'common practice, no source',
  severity: 'notice',
  packs: ['practice'],
  parameters: () => z.object({ limitPercent: percent(10, 'Deviation from the standard up to which a check is good.') }),
  perBatch: ['instrument'],
  chosenAt: 'the check',
  looksAt: {
    kinds: ['instrument', 'batch'],
    records: ['instrument.calibrated', 'instrument.checked', 'batch.oxygenMeasured', 'batch.chlorineMeasured'],
  },
  judge: {
    instrument(instrument, { limits, season, now, reach, beside }) {
      const { code } = instrument.registered;
      const drifts = driftsOf(instrument).filter(({ percent: off }) => off !== null);
      const readings = readingsBeside(season, reach, instrument, beside);
      let good = -Infinity;
      const judgements = drifts.map(({ record, percent: off }): Judgement => {
        const book = limits(record.at.at);
        const limit = book.parameters.limitPercent;
        const day = dayOf(season, record.at.at);
        const value = off ?? 0;
        const evidence = { figures: [{ name: 'driftPercent', value, unit: '%', limit }], recordIds: [record.id] };
        const since = good;
        // After a calibration the meter is set right again; after a good check it is known to be.
        if (value <= limit || record.type === 'instrument.calibrated') good = record.at.at;
        if (value <= limit) return met(book, say('instrument-drift.off', { code, percent: value, day }), evidence);
        const doubted = readings.filter(({ at }) => at.at > since && at.at <= record.at.at);
        const where = once(doubted.map((reading) => whereRead(season, reading)));
        return doubted.length === 0
          ? met(
              book,
              say(beside === null ? 'instrument-drift.nothingRead' : 'instrument-drift.noneOfBatch', {
                code,
                percent: value,
                day,
              }),
              evidence,
            )
          : caution(
              book,
              say('instrument-drift.doubted', {
                code,
                percent: value,
                day,
                n: doubted.length,
                where: where.slice(0, 5),
                more: where.length > 5 ? say('list.andOthers') : null,
              }),
              { ...evidence, recordIds: [record.id, ...doubted.map(({ id }) => id)] },
            );
      });
      return worst(judgements) ?? notApplicable(limits(now), say('instrument-drift.none'));
    },
  },
});
