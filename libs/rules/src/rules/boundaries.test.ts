import { describe, expect, it } from '@jest/globals';
import { fahrenheit, gal, id, instant, lb, mgPerL, ordinary } from '../testing/season.ts';
import { drawOutcomes, outcomeOf } from '../testing/verdicts.ts';

// The minute at which a verdict turns: the limit itself belongs to the allowed side.

describe('water whose result is pending', () => {
  it('waits 14 days from the sampling, not from the fill', () => {
    const season = ordinary().source('W2').tested('W2', '06-01', 'pending');
    season.batch('T-14', '06-05 04:00').filled('06-05 05:00', gal(250), 'W2');
    const at = (now: string) => outcomeOf(season.season(), 'source-tested', 'T-14', { now: instant(now) });
    expect(at('06-06 12:00')).toMatchObject({ outcome: 'due', dueAt: instant('06-15 00:00') });
    expect(at('06-15 00:00').outcome).toBe('due');
    expect(at('06-15 00:01').outcome).toBe('unknown');
    expect(at('06-15 00:01').message).toContain('the sample of 1 June 2026 was never recorded');
  });
});

describe('tea that nobody applied, 8 h after the air went off', () => {
  const left = () => {
    const season = ordinary();
    season.batch('T-14').filled('06-02 05:00').airOn('06-02 05:00').fed('06-02 06:00', 'C-1').airOff('06-03 06:00');
    return season.season();
  };
  const at = (now: string, ms = 0) =>
    outcomeOf(left(), 'hold-maximum', 'T-14', { now: instant(now) + ms, kind: 'batch' });
  it('is due by 6 h, then by 8 h, and lost from sight after that', () => {
    expect(at('06-03 12:00')).toMatchObject({ outcome: 'due', dueAt: instant('06-03 12:00') });
    expect(at('06-03 12:00', 1)).toMatchObject({ outcome: 'due', dueAt: instant('06-03 14:00') });
    expect(at('06-03 14:00').outcome).toBe('due');
    expect(at('06-03 14:00', 1).outcome).toBe('unknown');
  });
  it('of a load that was drawn with the air running, the same by the draw', () => {
    const season = ordinary();
    const batch = season.batch('T-14').filled('06-02 05:00').airOn('06-02 05:00').fed('06-02 06:00', 'C-1');
    batch.drawn('06-03 06:00', 'load', gal(100));
    const load = (ms: number) => drawOutcomes(season.season(), 'hold-maximum', 'T-14', instant('06-03 14:00') + ms)[0];
    expect(load(0)).toMatchObject({ outcome: 'due', dueAt: instant('06-03 14:00') });
    expect(load(1)?.outcome).toBe('unknown');
    const early = drawOutcomes(season.season(), 'hold-maximum', 'T-14', instant('06-03 12:00'))[0];
    expect(early).toMatchObject({ outcome: 'due', dueAt: instant('06-03 12:00') });
  });
});

describe('an interruption of the air that nobody checked after counts as time held', () => {
  const held = (plusMinusMinutes = 0) => {
    const season = ordinary();
    season
      .batch('T-14')
      .filled('06-02 05:00')
      .airOn('06-02 05:00')
      .fed('06-02 06:00', 'C-1')
      // Off for 2 h, an hour longer than the 60 min that are accepted.
      .airOff('06-02 20:00', { plusMinusMinutes })
      .airOn('06-02 22:00')
      .airOff('06-03 07:00')
      .applied('A-1', '06-03 08:00', '06-03 09:00');
    return drawOutcomes(season.season(), 'hold-maximum', 'T-14')[0];
  };
  it('2 h without air and 2 h until the application are 4 h, and it says which part that is', () => {
    const outcome = held();
    expect(outcome?.figures).toEqual([
      expect.objectContaining({ name: 'holdHours', value: 4 }),
      { name: 'uncheckedInterruptionHours', value: 2, unit: 'h' },
    ]);
    expect(outcome?.message).toContain('Of this, 2 h are an interruption of the air');
  });
  it('as wide as both times are unsure', () => {
    expect(held(30)?.figures[0]).toMatchObject({ name: 'holdHours', value: 4, range: [3.5, 4.5] });
  });
});

describe('a low reading put right within the hour', () => {
  const corrected = (at: string) => {
    const season = ordinary();
    season
      .batch('T-14')
      .filled('06-02 05:00')
      .airOn('06-02 05:00')
      .fed('06-02 06:00', 'C-1')
      .oxygen('06-02 12:00', 5)
      .oxygen(at, 6);
    return outcomeOf(season.season(), 'oxygen-minimum', 'T-14').outcome;
  };
  it('within exactly 60 min is a caution; a minute later it is not', () => {
    expect([corrected('06-02 13:00'), corrected('06-02 13:01')]).toEqual(['caution', 'broken']);
  });
  it('is waited for, for exactly 60 min', () => {
    const season = ordinary();
    season.batch('T-14').filled('06-02 05:00').airOn('06-02 05:00').fed('06-02 06:00', 'C-1').oxygen('06-02 12:00', 5);
    const at = (now: string) => outcomeOf(season.season(), 'oxygen-minimum', 'T-14', { now: instant(now) });
    expect(at('06-02 13:00')).toMatchObject({ outcome: 'due', dueAt: instant('06-02 13:00'), due: 'record oxygen' });
    expect(at('06-02 13:01').outcome).toBe('broken');
  });
  it('the first reading of a brew is due 12 h after the food, and unknown when it never came', () => {
    const season = ordinary();
    season.batch('T-14').filled('06-02 05:00').airOn('06-02 05:00').fed('06-02 06:00', 'C-1');
    const at = (now: string) => outcomeOf(season.season(), 'oxygen-minimum', 'T-14', { now: instant(now) });
    expect(at('06-02 18:00')).toMatchObject({ outcome: 'due', dueAt: instant('06-02 18:00') });
    expect(at('06-02 18:01').outcome).toBe('unknown');
  });
});

describe('chlorine measured before the food goes in', () => {
  it('above the limit it is measured again: due 15 min later, and broken once the food is in', () => {
    const season = ordinary().source('Town', { kind: 'municipal', disinfectant: 'chlorine' });
    const batch = season.batch('T-14').filled('06-02 05:00', gal(250), 'Town').airOn('06-02 05:00');
    batch.chlorine('06-02 05:10', { free: mgPerL(0.4) });
    const at = (now: string) => outcomeOf(season.season(), 'chlorine-dissipated', 'T-14', { now: instant(now) });
    expect(at('06-02 05:11')).toMatchObject({
      outcome: 'due',
      due: 'measure free chlorine again',
      dueAt: instant('06-02 05:25'),
    });
    batch.fed('06-02 05:30', 'C-1');
    expect(at('06-02 05:31')).toMatchObject({ outcome: 'broken' });
    expect(at('06-02 05:31').message).toContain('The food went in all the same.');
  });
});

describe('oxygen looked at all along', () => {
  it('says the longest of the times between, not the first', () => {
    const season = ordinary();
    season
      .batch('T-14')
      .filled('06-02 05:00')
      .airOn('06-02 05:00')
      .fed('06-02 06:00', 'C-1')
      .oxygen('06-02 09:00', 7)
      .oxygen('06-02 20:00', 7)
      .oxygen('06-03 05:00', 7)
      .airOff('06-03 06:00')
      .applied('A-1', '06-03 06:30', '06-03 07:00');
    const outcome = outcomeOf(season.season(), 'oxygen-checked', 'T-14', { kind: 'batch' });
    expect(outcome).toMatchObject({ outcome: 'met', figures: [{ name: 'gapHours', value: 11 }] });
    expect(outcome.message).toMatch(/^At most 11 h without an oxygen reading from 09:00 on 2 June 2026/);
  });
});

describe('figures of a static aerated pile', () => {
  it('have no turnings: none are asked of it', () => {
    const season = ordinary();
    season.material('manure', { kind: 'other', animalOrigin: 'yes' }).lot('Man-1', 'manure', lb(1000));
    season.add('pile.started', '03-01 08:00', {
      ...{ pileId: id('P-1'), code: 'P-1', method: 'staticAerated', carbonToNitrogen: 30 },
      inputs: [{ lotId: id('Man-1'), quantity: lb(500) }],
    });
    season.add('pile.measured', '03-02 08:00', { pileId: id('P-1'), temperatures: [{ value: fahrenheit(140) }] });
    for (const ruleId of ['compost-produce', 'compost-organic']) {
      const { figures } = outcomeOf(season.season(), ruleId, 'P-1');
      expect(figures.map(({ name }) => name)).not.toContain('turnings');
      expect(figures[0]).toMatchObject({ name: 'daysAtTemperature', value: 1, limit: 3 });
    }
  });
});
