import { describe, expect, it } from '@jest/globals';
import { instant, ordinary, type Beside } from '../testing/season.ts';
import { drawOutcomes, drawVerdict, outcomeOf } from '../testing/verdicts.ts';

/** Limits: common practice, no source: 24 h advised, 20 h least. Food goes in at 06:00 on 2 June. */
const drawnAt = (draw: string, beside: Beside = {}) => {
  const season = ordinary();
  season
    .batch('T-14')
    .filled('06-02 05:00')
    .airOn('06-02 05:00')
    .fed('06-02 06:00', 'C-1', undefined, beside)
    .applied('A-1', draw, '06-05 12:00');
  return season;
};

describe('brew time from below', () => {
  it.each([
    ['06-03 06:00', 'met', 'exactly 24 h reach the advised time'],
    ['06-03 05:59', 'caution', '1 min short of 24 h is short of what is advised'],
    ['06-03 02:00', 'caution', 'exactly 20 h belong to the allowed side'],
    ['06-03 01:59', 'broken', '1 min short of 20 h breaks the limit'],
  ])('a draw at %s is %s: %s', (draw, verdict) => {
    expect(drawVerdict(drawnAt(draw).season(), 'brew-minimum', 'T-14')).toBe(verdict);
  });

  it('an ingredient put in at about six leaves a brew of 20 h ± 30 min undecided, in words', () => {
    const [outcome] = drawOutcomes(drawnAt('06-03 02:00', { plusMinusMinutes: 30 }).season(), 'brew-minimum', 'T-14');
    expect(outcome?.outcome).toBe('unknown');
    expect(outcome?.message).toContain('between 19 h 30 min and 20 h 30 min');
    expect(outcome?.figures[0]?.range).toEqual([19.5, 20.5]);
  });

  it('a brew of 24 h ± 30 min is certainly long enough, with a word of caution', () => {
    const [outcome] = drawOutcomes(drawnAt('06-03 06:00', { plusMinusMinutes: 30 }).season(), 'brew-minimum', 'T-14');
    expect(outcome?.outcome).toBe('caution');
    expect(outcome?.message).toContain('between 23 h 30 min and 24 h 30 min');
  });

  it('says nothing of an extract', () => {
    const season = ordinary();
    season
      .batch('X-1', undefined, { kind: 'extract' })
      .filled('06-02 05:00')
      .fed('06-02 06:00', 'C-1')
      .applied('A-1', '06-02 07:00', '06-02 08:00');
    expect(drawVerdict(season.season(), 'brew-minimum', 'X-1')).toBe('notApplicable');
  });

  it('counts from the last top-up of compost, not from the first', () => {
    const season = ordinary();
    season
      .batch('T-14')
      .filled('06-02 05:00')
      .airOn('06-02 05:00')
      .fed('06-02 06:00', 'C-1')
      .fed('06-02 18:00', 'C-1')
      .applied('A-1', '06-03 06:00', '06-03 08:00');
    // 18:00 to 06:00 are 12 h.
    expect(drawOutcomes(season.season(), 'brew-minimum', 'T-14')[0]).toMatchObject({
      outcome: 'broken',
      figures: [{ value: 12 }],
    });
  });

  it('a draw of which no ingredient is known says what is missing', () => {
    const season = ordinary();
    season.batch('T-14').filled('06-02 05:00').airOn('06-02 05:00').applied('A-1', '06-03 06:00', '06-03 08:00');
    const [outcome] = drawOutcomes(season.season(), 'brew-minimum', 'T-14');
    expect(outcome?.outcome).toBe('unknown');
    expect(outcome?.message).toContain('record when the first one went in');
  });

  it('is due at 24 h while the tank brews, and met from then on', () => {
    const season = ordinary();
    season.batch('T-14').filled('06-02 05:00').airOn('06-02 05:00').fed('06-02 06:00', 'C-1');
    const at = (now: string) => outcomeOf(season.season(), 'brew-minimum', 'T-14', { now: instant(now) });
    expect(at('06-02 12:00')).toMatchObject({ outcome: 'due', dueAt: instant('06-03 06:00') });
    expect(at('06-03 05:59').outcome).toBe('due');
    expect(at('06-03 06:00').outcome).toBe('met');
  });

  it('one load drawn too early and one in time are judged each on its own', () => {
    const season = ordinary();
    season
      .batch('T-14')
      .filled('06-02 05:00')
      .airOn('06-02 05:00')
      .fed('06-02 06:00', 'C-1')
      .applied('A-1', '06-03 01:00', '06-03 02:00', 'North 4', { value: 100, unit: '[gal_us]' })
      .applied('A-2', '06-03 07:00', '06-03 08:00', 'North 4', { value: 100, unit: '[gal_us]' });
    expect(drawOutcomes(season.season(), 'brew-minimum', 'T-14').map((each) => each.outcome)).toEqual([
      'broken',
      'met',
    ]);
  });

  // From the food at 10:00, 20 h end at 06:00 (common practice, no source).
  it.each([
    ['06-02 05:59', 'caution'],
    ['06-02 06:00', 'met'],
  ])('of a brew fed at 10:00 whose air was off at %s: %s', (off, verdict) => {
    const season = ordinary();
    season.batch('T-14').filled('06-01 05:00').airOn('06-01 05:00').fed('06-01 10:00', 'C-1').airOff(off);
    expect(outcomeOf(season.season(), 'brew-minimum', 'T-14', { now: instant('06-02 07:00') }).outcome).toBe(verdict);
  });
});
