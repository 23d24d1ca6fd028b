import { z } from 'zod';
import { broken, met, notApplicable, unknown } from '../engine/judgement.ts';
import { resting } from '../engine/limits.ts';
import { groundRecords, waterRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { sourceAt } from '../judging/water.ts';
import { say } from '../words/index.ts';

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
  parameters: () => z.object({}),
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
      if (dilutionVolume === undefined || dilutionVolume.value === 0)
        return notApplicable(book, say('dilution-water.none'));
      const source = dilutionSourceId === undefined ? null : sourceAt(season, dilutionSourceId, application.started.at);
      if (source === null) return unknown(book, say('dilution-water.fromWhere'), { recordIds });
      if (source.kind === 'surface' && (source.treatment ?? []).length === 0) {
        const plantings = application.targets.flatMap(({ plantingIds }) =>
          plantingIds.map((id) => season.planting(id)),
        );
        const food =
          plantings.length === 0 || plantings.some((planting) => planting?.started.data.ediblePart !== 'notForFood');
        if (food)
          return broken(resting(book, 'guideline', 'major'), say('dilution-water.surface', { code: source.code }), {
            recordIds,
          });
      }
      if (source.disinfectant === 'unknown')
        return unknown(book, say('dilution-water.waterUnknown', { code: source.code }), { recordIds });
      return source.disinfectant === 'none'
        ? met(book, say('dilution-water.clean', { code: source.code }), { recordIds })
        : broken(
            book,
            say('dilution-water.kills', {
              code: source.code,
              disinfectant: say(`water.${source.disinfectant}`),
            }),
            {
              recordIds,
            },
          );
    },
  },
});
