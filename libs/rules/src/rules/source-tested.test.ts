import type { Quantity } from '@furrowmark/domain';
import { describe, expect, it } from '@jest/globals';
import { gal, instant, ordinary, SeasonBuilder } from '../testing/season.ts';
import { outcomeOf } from '../testing/verdicts.ts';

/** 21 CFR 112.51(a): no detectable generic E. coli in 100 mL, a single result. How long a test counts is practice. */
const farm = () =>
  new SeasonBuilder().described().source('W1').vessel('Tote 2').material('compost').lot('C-1', 'compost');
const filledOn = (season: SeasonBuilder, day = '06-02', source = 'W1') => {
  season.batch('T-14', `${day} 04:00`).filled(`${day} 05:00`, gal(250), source);
  return outcomeOf(season.season(), 'source-tested', 'T-14');
};

describe('water tested for E. coli', () => {
  it.each([
    ['2025-06-02', 'met', 'exactly 365 days old'],
    ['2025-06-01', 'broken', '366 days old'],
  ])('a fill on 2 June 2026 with a sample of %s is %s: %s', (sampled, verdict) => {
    expect(filledOn(farm().tested('W1', sampled)).outcome).toBe(verdict);
  });

  it('one CFU in 100 mL is detected', () => {
    expect(filledOn(farm().tested('W1', '05-01', 1)).outcome).toBe('broken');
  });

  it('"below 1" is none detected, "below 10" does not tell', () => {
    const below = (value: number) => ({ value, unit: '{CFU}/(100.mL)', qualifier: '<' as const });
    expect(filledOn(farm().tested('W1', '05-01', below(1))).outcome).toBe('met');
    expect(filledOn(farm().tested('W1', '05-01', below(10))).outcome).toBe('unknown');
  });

  it.each<[Quantity, string, string]>([
    [{ value: 0, unit: '{CFU}/(100.mL)', qualifier: 'between', high: 2 }, 'unknown', 'perhaps none'],
    [{ value: 1, unit: '{CFU}/(100.mL)', qualifier: 'between', high: 2 }, 'broken', 'at least one'],
    [{ value: 0, unit: '{CFU}/(100.mL)', qualifier: '>' }, 'broken', 'more than none'],
    [{ value: 1, unit: '1', qualifier: '<' }, 'met', 'a bare count is one in 100 mL'],
    [{ value: 10, unit: '{MPN}/L', qualifier: '<' }, 'met', 'below 10 in a litre'],
    [{ value: 11, unit: '{MPN}/L', qualifier: '<' }, 'unknown', 'below 11 in a litre'],
    [{ value: 0.5, unit: '{CFU}/(50.mL)', qualifier: '<' }, 'met', 'below a half in 50 mL'],
    [{ value: 1, unit: '{CFU}/g', qualifier: '<' }, 'unknown', 'in a gram: of no volume'],
  ])('%j: %s, %s', (value, verdict) => {
    expect(filledOn(farm().tested('W1', '05-01', value)).outcome).toBe(verdict);
  });

  it('not detected in 1 mL says nothing about 100 mL', () => {
    const perMl = { value: 1, unit: '{CFU}/mL', qualifier: 'notDetected' as const };
    expect(filledOn(farm().tested('W1', '05-01', perMl)).outcome).toBe('unknown');
  });

  it('results are not averaged: one bad one among many is bad', () => {
    const season = farm();
    season.add('source.tested', '05-01 12:00', {
      sourceId: season.idOf('W1'),
      sampledAt: '2026-05-01T08:00:00-05:00',
      results: [0, 0, 0, 2].map((value) => ({ analyte: 'E. coli', value: { value, unit: '{CFU}/(100.mL)' } })),
    });
    expect(filledOn(season).outcome).toBe('broken');
  });

  it('total coliforms alone are no test for E. coli', () => {
    const season = farm();
    season.add('source.tested', '05-01 12:00', {
      sourceId: season.idOf('W1'),
      sampledAt: '2026-05-01T08:00:00-05:00',
      results: [{ analyte: 'total coliforms', value: { value: 0, unit: '{CFU}/(100.mL)' } }],
    });
    expect(filledOn(season).outcome).toBe('broken');
  });

  it('a bad sample re-opens every batch since the last good one, and none before it', () => {
    const season = farm().tested('W1', '05-01').tested('W1', '06-15').tested('W1', '07-12', 4);
    season.batch('before', '06-10 04:00').filled('06-10 05:00');
    season.batch('since', '06-20 04:00').filled('06-20 05:00');
    const open = season.season();
    expect(outcomeOf(open, 'source-tested', 'before').outcome).toBe('met');
    const since = outcomeOf(open, 'source-tested', 'since');
    expect(since.outcome).toBe('broken');
    expect(since.message).toContain('every batch since the last good sample');
  });

  it('a pending result is due, and missing after two weeks', () => {
    const season = farm().tested('W1', '06-01', 'pending');
    season.batch('T-14', '06-02 04:00').filled('06-02 05:00');
    const at = (now: string) => outcomeOf(season.season(), 'source-tested', 'T-14', { now: instant(now) });
    expect(at('06-05 12:00')).toMatchObject({ outcome: 'due', due: "record the laboratory's result" });
    expect(at('06-20 12:00').outcome).toBe('unknown');
  });

  it("the utility's report serves for a municipal source, not for a well", () => {
    const reported = (kind: 'municipal' | 'well') => {
      const season = farm().source('Town', { kind });
      season.add('source.documented', '02-01 09:00', {
        sourceId: season.idOf('Town'),
        covers: 'utilityReport',
        from: '2026-01-01',
        until: '2026-12-31',
      });
      return filledOn(season, '06-02', 'Town').outcome;
    };
    expect(reported('municipal')).toBe('met');
    expect(reported('well')).toBe('broken');
  });

  it('is not asked for where the produce rule is not among the regimes', () => {
    const season = ordinary({ regimes: ['us-organic'] });
    season.batch('T-14').filled('06-02 05:00');
    expect(() => outcomeOf(season.season(), 'source-tested', 'T-14')).toThrow(/says nothing/);
  });
});
