import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { openSeason } from '../fold/season.ts';
import { randomSeason } from '../testing/randomSeason.ts';
import { HarvestsNear, harvestReached, plantingsReached } from './reach.ts';

describe('harvests near a place', () => {
  it('leave out none that an application reached, whatever was recorded, and keep the season’s order', () => {
    fc.assert(
      fc.property(randomSeason, (records) => {
        const season = openSeason(records);
        const near = new HarvestsNear(season);
        for (const application of season.applications()) {
          for (const target of application.targets) {
            if (target.fieldId === undefined) continue;
            const plantings = plantingsReached(season, application, target);
            const reached = (harvests: ReturnType<typeof season.harvests>) =>
              harvests
                .filter((harvest) => harvestReached(season, application, target, plantings, harvest) !== null)
                .map(({ id }) => id);
            expect(reached(near.of(target.fieldId, plantings))).toEqual(reached(season.harvests()));
          }
        }
      }),
      { numRuns: 200 },
    );
  });
});
