import { describe, expect, it } from '@jest/globals';
import { id, instant, ordinary, SeasonBuilder } from '../testing/season.ts';
import { allDue } from '../next-due.ts';
import { drawOutcomes, outcomeOf } from '../testing/verdicts.ts';

/** Limits: common practice, no source: 12 h advised, 16 h limit, 4 h before a draw. Food in at 06:00. */
const readAt = (times: readonly string[], draw = '06-03 07:00') => {
  const season = ordinary();
  const batch = season.batch('T-14').filled('06-02 05:00').airOn('06-02 05:00').fed('06-02 06:00', 'C-1');
  for (const time of times) batch.oxygen(time, 7);
  batch.applied('A-1', draw, '06-03 12:00');
  return season.season();
};
const gap = (times: readonly string[]) => outcomeOf(readAt(times), 'oxygen-checked', 'T-14', { kind: 'batch' });

describe('how often oxygen is looked at', () => {
  it.each([
    ['06-02 18:00', 'met', 'a gap of exactly 12 h'],
    ['06-02 18:01', 'caution', '12 h 1 min are past the advised gap'],
    ['06-02 22:00', 'caution', 'exactly 16 h belong to the allowed side'],
    ['06-02 22:01', 'broken', '16 h 1 min break the limit'],
  ])('first reading at %s is %s: %s', (first, verdict) => {
    // A second reading keeps the rest of the brew covered.
    expect(gap([first, '06-03 04:00']).outcome).toBe(verdict);
  });

  it.each([
    ['06-03 03:00', 'met', 'exactly 4 h'],
    ['06-03 02:59', 'broken', '4 h 1 min'],
    ['06-03 07:00', 'met', 'in the minute of the draw'],
  ])('the last reading before a draw at 07:00 was at %s: %s, %s', (last, verdict) => {
    expect(drawOutcomes(readAt(['06-02 15:00', last]), 'oxygen-checked', 'T-14')[0]?.outcome).toBe(verdict);
  });

  it('a draw without any reading before it is a check not made', () => {
    expect(drawOutcomes(readAt([]), 'oxygen-checked', 'T-14')[0]?.outcome).toBe('broken');
  });

  it('the phone shows the next reading as a clock time: read at 22:00, due by 10:00', () => {
    const season = ordinary();
    season
      .batch('T-14')
      .filled('06-02 05:00')
      .airOn('06-02 05:00')
      .fed('06-02 16:00', 'C-1')
      .oxygen('06-02 22:00', 7.1);
    expect(allDue(season.season(), id('T-14'), instant('06-02 23:00'))[0]).toEqual({
      ruleId: 'oxygen-checked',
      at: instant('06-03 10:00'),
      what: 'record oxygen',
    });
  });

  it('a long gap is broken for good, and the next reading is still asked for', () => {
    const season = ordinary();
    season
      .batch('T-14')
      .filled('06-02 05:00')
      .airOn('06-02 05:00')
      .fed('06-02 06:00', 'C-1')
      .oxygen('06-02 23:00', 7.1);
    const open = season.season();
    const now = instant('06-03 00:00');
    expect(outcomeOf(open, 'oxygen-checked', 'T-14', { now }).outcome).toBe('broken');
    expect(allDue(open, id('T-14'), now)[0]).toBeDefined();
    expect(outcomeOf(open, 'oxygen-checked', 'T-14', { now: instant('06-04 00:00') }).outcome).toBe('broken');
  });

  it('a reading not made is broken as soon as the time has passed', () => {
    const season = ordinary();
    season.batch('T-14').filled('06-02 05:00').airOn('06-02 05:00').fed('06-02 06:00', 'C-1');
    const at = (now: string) => outcomeOf(season.season(), 'oxygen-checked', 'T-14', { now: instant(now) });
    expect(at('06-02 22:00')).toMatchObject({ outcome: 'due', dueAt: instant('06-02 22:00') });
    expect(at('06-02 22:01').outcome).toBe('broken');
  });

  it('after a reading whose time is not exact, 16 h may or may not have passed', () => {
    const season = ordinary();
    season
      .batch('T-14')
      .filled('06-02 05:00')
      .airOn('06-02 05:00')
      .fed('06-02 06:00', 'C-1')
      // Between 11:30 and 12:30: the 16 h end between 03:30 and 04:30.
      .oxygen('06-02 12:00', 7, {}, { plusMinusMinutes: 30 });
    const at = (now: string) => outcomeOf(season.season(), 'oxygen-checked', 'T-14', { now: instant(now) });
    expect(at('06-03 04:00').outcome).toBe('due');
    expect(at('06-03 04:01').outcome).toBe('unknown');
    expect(at('06-03 04:01').message).toContain('a time that is not exact');
    expect(at('06-03 04:30').outcome).toBe('unknown');
    expect(at('06-03 04:31').outcome).toBe('broken');
  });

  /** A brew of an operation that registered no meter, looked at twice. */
  const lookedAt = (): SeasonBuilder => {
    const season = new SeasonBuilder()
      .described()
      .source('W1')
      .vessel('Tote 2')
      .material('compost')
      .lot('C-1', 'compost');
    season
      .batch('T-14')
      .filled('06-02 05:00')
      .airOn('06-02 05:00')
      .fed('06-02 06:00', 'C-1')
      .checked('06-02 17:00')
      .checked('06-03 04:00')
      .applied('A-1', '06-03 07:00', '06-03 08:00');
    return season;
  };

  it('an operation without a meter is asked to look and smell instead', () => {
    const season = lookedAt();
    const open = season.season();
    expect(outcomeOf(open, 'oxygen-checked', 'T-14', { kind: 'batch' }).outcome).toBe('met');
    expect(drawOutcomes(open, 'oxygen-checked', 'T-14')[0]?.outcome).toBe('met');
    expect(outcomeOf(open, 'oxygen-minimum', 'T-14').outcome).toBe('notApplicable');
  });

  it('one reading shows that there is a meter, registered or not: from then on a look is not enough', () => {
    const season = lookedAt();
    season.batch('T-13', '05-20 05:00').filled('05-20 05:00').oxygen('05-20 12:00', 7);
    const open = season.season();
    expect(outcomeOf(open, 'oxygen-checked', 'T-14', { kind: 'batch' }).outcome).toBe('broken');
    expect(drawOutcomes(open, 'oxygen-checked', 'T-14')[0]?.outcome).toBe('broken');
    expect(outcomeOf(open, 'oxygen-minimum', 'T-14').outcome).not.toBe('notApplicable');
  });
});
