import { describe, expect, it } from '@jest/globals';
import { instant, ordinary } from '../testing/season.ts';
import { outcomeOf } from '../testing/verdicts.ts';

/** Limits: common practice, no source: 15 min advised, 60 min limit. The air goes off at 20:00. */
const offUntil = (on: string, plusMinusMinutes = 0) => {
  const season = ordinary();
  season
    .batch('T-14')
    .filled('06-02 05:00')
    .airOn('06-02 05:00')
    .fed('06-02 06:00', 'C-1')
    .airOff('06-02 20:00')
    .airOn(on, { plusMinusMinutes })
    .oxygen('06-02 23:00', 7);
  return outcomeOf(season.season(), 'air-continuous', 'T-14');
};

describe('interruptions of the air', () => {
  it.each([
    ['06-02 20:15', 'met', 'exactly 15 min'],
    ['06-02 20:16', 'caution', '16 min are past the advised length'],
    ['06-02 21:00', 'caution', 'exactly 60 min belong to the allowed side'],
    ['06-02 21:01', 'broken', '61 min break the limit'],
  ])('air back on at %s is %s: %s', (on, verdict) => {
    expect(offUntil(on).outcome).toBe(verdict);
  });

  it('air back on at about nine leaves an hour undecided', () => {
    expect(offUntil('06-02 21:00', 10)).toMatchObject({ outcome: 'unknown', figures: [{ range: [50, 70] }] });
  });

  it('a power cut found at dawn lies between when the air last ran and when it was found off', () => {
    const season = ordinary();
    const batch = season.batch('T-14').filled('06-02 05:00').airOn('06-02 05:00').fed('06-02 06:00', 'C-1');
    batch
      .airOff(
        '06-03 05:00',
        {},
        {
          cause: 'powerCut',
          lastKnownRunningAt: '2026-06-02T22:00:00-05:00',
          foundAt: '2026-06-03T05:00:00-05:00',
        },
      )
      .airOn('06-03 05:10');
    // Between 10 min and 7 h 10 min without air: nobody can say.
    expect(outcomeOf(season.season(), 'air-continuous', 'T-14')).toMatchObject({
      outcome: 'unknown',
      figures: [{ name: 'minutesOff', range: [10, 430] }],
    });
  });

  it('air off before the food goes in harms nothing', () => {
    const season = ordinary();
    season
      .batch('T-14')
      .filled('06-02 05:00')
      .airOn('06-02 05:00')
      .airOff('06-02 06:00')
      .airOn('06-02 09:00')
      .fed('06-02 09:30', 'C-1');
    expect(outcomeOf(season.season(), 'air-continuous', 'T-14').outcome).toBe('met');
  });

  it('a power cut under way says by when the air must be back', () => {
    const season = ordinary();
    season
      .batch('T-14')
      .filled('06-02 05:00')
      .airOn('06-02 05:00')
      .fed('06-02 06:00', 'C-1')
      .airOff('06-02 20:00', {}, { cause: 'powerCut' });
    const now = instant('06-02 20:30');
    expect(outcomeOf(season.season(), 'air-continuous', 'T-14', { now })).toMatchObject({
      outcome: 'due',
      dueAt: instant('06-02 21:00'),
    });
  });

  it('a brew of which no air is recorded cannot be told about', () => {
    const season = ordinary();
    season.batch('T-14').filled('06-02 05:00').fed('06-02 06:00', 'C-1');
    expect(outcomeOf(season.season(), 'air-continuous', 'T-14').outcome).toBe('unknown');
  });
});
