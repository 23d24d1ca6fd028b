import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { findingId, outcomesThatDiffer, outcomesToKeep, type KeptOutcomes } from './index.ts';
import { id, instant, operation, ordinary } from './testing/season.ts';
import { randomSeason } from './testing/random-season.ts';

const now = instant('2026-06-20 12:00');

describe('outcomes of another version of the rules', () => {
  it('the same rules over the same records at the same time differ in nothing', () => {
    fc.assert(
      fc.property(randomSeason, (season) => {
        const kept: unknown = JSON.parse(JSON.stringify(outcomesToKeep(season.season(), now)));
        expect(kept).toEqual(outcomesToKeep(season.season(), now));
        expect(outcomesThatDiffer(season.season(), now, outcomesToKeep(season.season(), now))).toEqual([]);
      }),
      { numRuns: 20 },
    );
  });

  it('a rule of an earlier revision that judged otherwise, one that is new and one that is gone', () => {
    const season = ordinary();
    season
      .batch('T-14')
      .filled('06-02 05:00')
      .airOn('06-02 05:00')
      .fed('06-02 06:00', 'C-1')
      .oxygen('06-02 18:00', 5)
      .checked('06-02 19:00');
    const open = season.season();
    const { 'oxygen-minimum': oxygen, ...others } = outcomesToKeep(open, now);
    const about = findingId(operation, 'oxygen-minimum', 'batch', id('T-14'));
    expect(oxygen).toEqual({ revision: expect.any(Number), verdicts: { broken: [about] } });
    const kept: KeptOutcomes = {
      ...Object.fromEntries(Object.entries(others).filter(([ruleId]) => ruleId !== 'odour-sound')),
      'oxygen-minimum': { revision: 0, verdicts: { caution: [about] } },
      'foam-none': { revision: 3, verdicts: { met: ['f1'] } },
    };
    const differing = outcomesThatDiffer(open, now, kept);
    expect(differing).toContainEqual({
      ruleId: 'oxygen-minimum',
      revision: { before: 0, after: oxygen?.revision },
      findingId: about,
      about: { kind: 'batch', id: id('T-14'), code: 'T-14' },
      before: 'caution',
      after: 'broken',
    });
    expect(differing).toContainEqual({
      ruleId: 'foam-none',
      revision: { before: 3, after: null },
      findingId: 'f1',
      about: null,
      before: 'met',
      after: 'notApplicable',
    });
    // The rule on smell was not there then; an earthy smell is on record.
    expect(differing.filter(({ ruleId }) => ruleId === 'odour-sound')).toEqual([
      expect.objectContaining({ before: 'notApplicable', after: 'met', revision: { before: null, after: 3 } }),
    ]);
    expect(differing.map(({ ruleId }) => ruleId)).not.toContain('brew-minimum');
  });
});
