import { describe, expect, it } from '@jest/globals';
import { gal, instant, ordinary } from '../testing/season.ts';
import { drawOutcomes, drawVerdict, outcomeOf } from '../testing/verdicts.ts';

/** Limits: common practice, no source: 36/48 h with microbial food, 48/72 h without. Food in at 06:00 on 2 June. */
const drawnAt = (draw: string, lot: string) => {
  const season = ordinary();
  season
    .batch('T-14')
    .filled('06-02 05:00')
    .airOn('06-02 05:00')
    .fed('06-02 06:00', 'C-1')
    .fed('06-02 06:00', lot)
    .applied('A-1', draw, '06-06 12:00');
  return season.season();
};

describe('brew time from above', () => {
  it.each([
    ['06-03 18:00', 'met', 'exactly 36 h with molasses'],
    ['06-03 18:01', 'caution', '36 h 1 min with molasses is past the advised time'],
    ['06-04 06:00', 'caution', 'exactly 48 h with molasses belong to the allowed side'],
    ['06-04 06:01', 'broken', '48 h 1 min with molasses breaks the limit'],
  ])('a fed tea drawn at %s is %s: %s', (draw, verdict) => {
    expect(drawVerdict(drawnAt(draw, 'M-1'), 'brew-maximum', 'T-14')).toBe(verdict);
  });

  it.each([
    ['06-04 06:00', 'met', 'exactly 48 h on compost alone'],
    ['06-04 06:01', 'caution', '48 h 1 min on compost alone'],
    ['06-05 06:00', 'caution', 'exactly 72 h on compost alone'],
    ['06-05 06:01', 'broken', '72 h 1 min on compost alone'],
  ])('a tea of compost alone drawn at %s is %s: %s', (draw, verdict) => {
    expect(drawVerdict(drawnAt(draw, 'C-1'), 'brew-maximum', 'T-14')).toBe(verdict);
  });

  it('a lot of unknown material leaves 50 h undecided, as they are too long with food and not without', () => {
    expect(drawVerdict(drawnAt('06-04 08:00', 'not recorded'), 'brew-maximum', 'T-14')).toBe('unknown');
    // 24 h are within both.
    expect(drawVerdict(drawnAt('06-03 06:00', 'not recorded'), 'brew-maximum', 'T-14')).toBe('met');
  });

  it('molasses put in after a load was drawn shortens nothing of the time of that load', () => {
    const judged = (molasses: string) => {
      const season = ordinary();
      season
        .batch('T-14')
        .filled('06-02 05:00')
        .airOn('06-02 05:00')
        .fed('06-02 06:00', 'C-1')
        .fed(molasses, 'M-1')
        .applied('A-1', '06-03 20:00', '06-03 21:00', 'North 4', gal(100))
        .applied('A-2', '06-04 07:00', '06-04 08:00', 'North 4', gal(100));
      return drawOutcomes(season.season(), 'brew-maximum', 'T-14').map(({ outcome }) => outcome)[0];
    };
    // 38 h: within 48 h of compost alone, past the 36 h advised with molasses.
    expect([judged('06-02 08:00'), judged('06-03 20:01')]).toEqual(['caution', 'met']);
  });

  it('a neutralizer that nobody described is no food: 50 h are a tea of compost alone', () => {
    const season = ordinary();
    season
      .batch('T-14')
      .filled('06-02 05:00')
      .airOn('06-02 05:00')
      .neutralized('06-02 05:30', 'not recorded')
      .fed('06-02 06:00', 'C-1')
      .applied('A-1', '06-04 08:00', '06-04 09:00');
    expect(drawVerdict(season.season(), 'brew-maximum', 'T-14')).toBe('caution');
  });

  it('says by when the tank is to be used up, first the advised time, then the limit, then that it is past', () => {
    const season = ordinary();
    season.batch('T-14').filled('06-02 05:00').airOn('06-02 05:00').fed('06-02 06:00', 'M-1');
    const at = (now: string) => outcomeOf(season.season(), 'brew-maximum', 'T-14', { now: instant(now) });
    expect(at('06-02 12:00')).toMatchObject({ outcome: 'due', dueAt: instant('06-03 18:00') });
    expect(at('06-03 18:01')).toMatchObject({ outcome: 'due', dueAt: instant('06-04 06:00') });
    expect(at('06-04 06:01').outcome).toBe('caution');
  });

  it('what clings to a tank after the last draw is no brew', () => {
    const season = ordinary();
    season
      .batch('T-14')
      .filled('06-02 05:00', gal(250))
      .airOn('06-02 05:00')
      .fed('06-02 06:00', 'M-1')
      .applied('A-1', '06-03 07:00', '06-03 08:00', 'North 4', gal(240));
    expect(() =>
      outcomeOf(season.season(), 'brew-maximum', 'T-14', { now: instant('06-20 06:00'), kind: 'batch' }),
    ).toThrow(/says nothing/);
  });
});
