import { z } from 'zod';
import { broken, met, notApplicable, unknown } from '../engine/judgement.ts';
import { resting } from '../engine/limits.ts';
import { groundRecords, waterRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { sourceAt } from '../judging/water.ts';

/** Water added in the sprayer. */
export const dilutionWater = defineRule({
  id: 'dilution-water',
  revision: 1,
  title: 'Water added in the sprayer',
  reason:
    'Tea thinned with chlorinated water is killed on the way to the field. Untreated surface water thinned into it carries onto the crop whatever it holds.',
  basis: 'practice',
  citation:
    'common practice, no source; potable water for tea: NOSB recommendation, advisory, in a secondary copy, read 2026-11-25',
  severity: 'minor',
  packs: ['practice'],
  parameters: z.object({}),
  chosenAt: 'the start of the application',
  looksAt: {
    kinds: ['application', 'source', 'planting'],
    records: [...waterRecords, ...groundRecords, 'application.made'],
  },
  judge: {
    application(application, { limits, season }) {
      const book = limits(application.started.at);
      const { dilutionVolume, dilutionSourceId } = application.record.data;
      const recordIds = [application.record.id];
      if (dilutionVolume === undefined || dilutionVolume.value === 0) return notApplicable(book, 'No water was added.');
      const source = dilutionSourceId === undefined ? null : sourceAt(season, dilutionSourceId, application.started.at);
      if (source === null)
        return unknown(book, 'Water was added in the sprayer; from where is not recorded.', { recordIds });
      if (source.kind === 'surface' && (source.treatment ?? []).length === 0) {
        const plantings = application.targets.flatMap(({ plantingIds }) =>
          plantingIds.map((id) => season.planting(id)),
        );
        const food =
          plantings.length === 0 || plantings.some((planting) => planting?.started.data.ediblePart !== 'notForFood');
        if (food)
          return broken(
            resting(book, 'guideline', 'major'),
            `Untreated surface water (${source.code}) was added and went onto a food crop.`,
            { recordIds },
          );
      }
      if (source.disinfectant === 'unknown')
        return unknown(book, `What the water from ${source.code} is disinfected with is not known.`, { recordIds });
      return source.disinfectant === 'none'
        ? met(book, `Water from ${source.code} holds no disinfectant.`, { recordIds })
        : broken(
            book,
            `Water from ${source.code} holds ${source.disinfectant}; thinned into the tea it kills what was brewed.`,
            { recordIds },
          );
    },
  },
});
