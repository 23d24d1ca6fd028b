import { z } from 'zod';
import { caution, met, notApplicable, worst, type Judgement } from '../engine/judgement.ts';
import { percent } from '../engine/parameter.ts';
import { checkRecords, tankRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { timeOf } from '../judging/when.ts';
import { say } from '../words/index.ts';

/** Readings that water of that temperature could hardly hold. */
export const oxygenPossible = defineRule({
  id: 'oxygen-possible',
  revision: 2,
  title: 'Oxygen readings that water can hold',
  reason:
    'Water of a given temperature and height above the sea holds only so much oxygen, whatever the pump. A reading well above that speaks of the probe, not of the brew, and should not reassure anybody.',
  basis: 'practice',
  citation:
    'saturation by the Benson & Krause equations as published by USGS; the percentage is common practice, no source',
  severity: 'notice',
  packs: ['practice'],
  parameters: () => z.object({ limitPercent: percent(120, 'Percent of saturation above which a reading is doubted.') }),
  chosenAt: 'the reading',
  looksAt: {
    kinds: ['batch', 'operation'],
    records: [...tankRecords, ...checkRecords],
  },
  judge: {
    batch(batch, { limits, now, season }) {
      const judgements = batch.oxygen.map((reading): Judgement => {
        const book = limits(reading.at.at);
        const { saturationPercent: share, temperatureC } = reading;
        if (share === null || temperatureC === null) {
          return notApplicable(book, say('oxygen-possible.noTemperature'));
        }
        const limit = book.parameters.limitPercent;
        const evidence = {
          figures: [{ name: 'saturationPercent', value: share, unit: '%', limit }],
          recordIds: [reading.recordId],
          since: reading.at.at,
        };
        const said = say('oxygen-possible.said', {
          mgPerL: reading.mgPerL,
          at: timeOf(season, reading.at.at),
          share,
          temperatureC,
        });
        return share > limit
          ? caution(book, say('oxygen-possible.doubted', { said }), evidence)
          : met(book, say('common.stop', { said }), evidence);
      });
      return (
        worst(judgements, (n) => say('common.moreReadings', { n })) ??
        notApplicable(limits(batch.brewStart?.at ?? now), say('oxygen-possible.none'))
      );
    },
  },
});
