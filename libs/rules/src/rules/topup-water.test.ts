import { describe, expect, it } from '@jest/globals';
import { gal, mgPerL, ordinary } from '../testing/season.ts';
import { outcomeOf } from '../testing/verdicts.ts';

/** A tank of 190 gal is topped up with chlorinated water. 10 gal of 200 are exactly 5 % of the content. */
const toppedUp = (volume: number, free?: number, disinfectant: 'chlorine' | 'chloramine' = 'chlorine') => {
  const season = ordinary().source('Town', { kind: 'municipal', disinfectant });
  const batch = season.batch('T-14').filled('06-02 05:00', gal(190)).airOn('06-02 05:00').fed('06-02 06:00', 'C-1');
  if (free !== undefined)
    batch.chlorine('06-02 11:50', { [disinfectant === 'chlorine' ? 'free' : 'total']: mgPerL(free) });
  batch.filled('06-02 12:00', gal(volume), 'Town');
  return outcomeOf(season.season(), 'topup-water', 'T-14').outcome;
};

describe('chlorinated water onto living tea', () => {
  it.each<[number, number | undefined, string, string]>([
    [10, undefined, 'met', 'exactly 5 % of the content'],
    [11, undefined, 'broken', 'more than 5 %, not measured'],
    [60, 0.1, 'met', 'measured at exactly 0.1 mg/L'],
    [60, 0.11, 'broken', 'measured above 0.1 mg/L'],
  ])('%s gal with a reading of %s is %s: %s', (volume, free, verdict) => {
    expect(toppedUp(volume, free)).toBe(verdict);
  });

  // In binary fractions 100 × 0.07 is a little more than 7, and so is 100 × 0.14 more than 14.
  it.each([
    [7, 7, 'met'],
    [7, 7.01, 'broken'],
    [14, 14, 'met'],
    [14, 14.01, 'broken'],
  ])('with an own limit of %s %%, of 100 gal with %s gal of it added: %s', (sharePercent, added, verdict) => {
    const season = ordinary()
      .source('Town', { kind: 'municipal', disinfectant: 'chlorine' })
      .adopted('05-01 00:00', [{ ruleId: 'topup-water', parameters: { sharePercent } }]);
    const batch = season.batch('T-14').filled('06-02 05:00', gal(Number((100 - added).toFixed(2))));
    batch.airOn('06-02 05:00').fed('06-02 06:00', 'C-1').filled('06-02 12:00', gal(added), 'Town');
    const { outcome, figures } = outcomeOf(season.season(), 'topup-water', 'T-14');
    expect(outcome).toBe(verdict);
    expect(figures[0]).toMatchObject({ name: 'sharePercent', value: added });
  });

  it('chloramine is measured as total chlorine', () => {
    expect(toppedUp(60, 0.05, 'chloramine')).toBe('met');
    expect(toppedUp(60, 0.5, 'chloramine')).toBe('broken');
  });
});
