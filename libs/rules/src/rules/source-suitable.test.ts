import { describe, expect, it } from '@jest/globals';
import { gal, SeasonBuilder } from '../testing/season.ts';
import { outcomeOf } from '../testing/verdicts.ts';

/** 21 CFR 112.51(a): not untreated surface water; 112.43: a written assessment at least yearly. */
const filledFrom = (source: Parameters<SeasonBuilder['source']>[1], assessedOn?: string, farmStatus?: string) => {
  const season = new SeasonBuilder().described(farmStatus === undefined ? {} : { farmStatus }).source('S1', source);
  if (assessedOn !== undefined) {
    season.add('source.documented', `${assessedOn} 09:00`, {
      sourceId: season.idOf('S1'),
      covers: 'assessment',
      from: assessedOn,
    });
  }
  season.batch('T-14').filled('06-02 05:00', gal(250), 'S1');
  return outcomeOf(season.season(), 'source-suitable', 'T-14').outcome;
};

describe('water fit for tea', () => {
  it('untreated surface water is not', () => {
    expect(filledFrom({ kind: 'surface' }, '2026-01-01')).toBe('broken');
    expect(filledFrom({ kind: 'surface', treatment: ['ultraviolet'] }, '2026-01-01')).toBe('met');
  });

  it.each([
    ['2025-06-02', 'met', '365 days before'],
    ['2025-06-01', 'broken', '366 days before'],
  ])('on a covered farm, a well assessed on %s is %s: %s', (assessed, verdict) => {
    expect(filledFrom({ kind: 'well' }, assessed, 'covered')).toBe(verdict);
  });

  it('without an assessment and without the standing of the farm it cannot be told', () => {
    expect(filledFrom({ kind: 'well' })).toBe('unknown');
  });

  it('a public supply needs none', () => {
    expect(filledFrom({ kind: 'municipal' }, undefined, 'covered')).toBe('met');
  });
});
