import { describe, expect, it } from '@jest/globals';
import { gal, id, instant, mgPerL, ordinary } from '../testing/season.ts';
import { outcomeOf } from '../testing/verdicts.ts';

const town = () =>
  ordinary()
    .source('Town', { kind: 'municipal', disinfectant: 'chloramine' })
    .material('vitamin C', { kind: 'neutralizer' })
    .lot('N-1', 'vitamin C', { value: 500, unit: 'g' });
const filled = (season = town()) => ({
  season,
  batch: season.batch('T-14').filled('06-01 05:00', gal(250), 'Town').airOn('06-01 05:00'),
});

describe('chloramine', () => {
  it('a night of air alone is no answer to it', () => {
    const { season, batch } = filled();
    batch.fed('06-02 06:00', 'C-1');
    expect(outcomeOf(season.season(), 'chloramine-handled', 'T-14').outcome).toBe('broken');
  });

  it('a neutralizer alone is not known to have worked (Basu & De Souza 2011 found vitamin C ineffective)', () => {
    const { season, batch } = filled();
    batch.neutralized('06-01 06:00', 'N-1').fed('06-01 07:00', 'C-1');
    expect(outcomeOf(season.season(), 'chloramine-handled', 'T-14').outcome).toBe('unknown');
  });

  it.each([
    [0.1, 'met', 'exactly 0.1 mg/L'],
    [0.11, 'broken', 'above 0.1 mg/L'],
  ])('total chlorine of %s mg/L after the treatment is %s: %s', (total, verdict) => {
    const { season, batch } = filled();
    batch
      .neutralized('06-01 06:00', 'N-1')
      .chlorine('06-01 06:30', { total: mgPerL(total) })
      .fed('06-01 07:00', 'C-1');
    expect(outcomeOf(season.season(), 'chloramine-handled', 'T-14').outcome).toBe(verdict);
  });

  it('a reading before the treatment does not speak of it', () => {
    const { season, batch } = filled();
    batch
      .chlorine('06-01 05:30', { total: mgPerL(0.05) })
      .neutralized('06-01 06:00', 'N-1')
      .fed('06-01 07:00', 'C-1');
    expect(outcomeOf(season.season(), 'chloramine-handled', 'T-14').outcome).toBe('unknown');
  });

  it.each([
    ['06:59', 'unknown', 'a minute before the food'],
    ['07:00', 'unknown', 'in the minute of the food'],
    ['07:01', 'broken', 'after it: the food went into water that had nothing but air'],
  ])('a neutralizer at %s, the food at 07:00: %s, %s', (when, verdict) => {
    const { season, batch } = filled();
    batch.neutralized(`06-01 ${when}`, 'N-1').fed('06-01 07:00', 'C-1');
    expect(outcomeOf(season.season(), 'chloramine-handled', 'T-14').outcome).toBe(verdict);
  });

  it.each<[string, number, string | null, string, string]>([
    ['07:15', 30, null, 'unknown', 'perhaps before the food all the same'],
    ['07:45', 30, null, 'broken', 'surely after the food'],
    ['07:15', 30, '06:30', 'unknown', 'then the reading was before the treatment, and does not speak of it'],
    ['07:45', 30, '06:30', 'met', 'the reading speaks of the water that the food went into'],
  ])('a neutralizer at about %s (±%s min), read at %s, the food at 07:00: %s, %s', (when, minutes, read, verdict) => {
    const { season, batch } = filled();
    const data = { batchId: id('T-14'), lotId: id('N-1'), quantity: { value: 5, unit: 'g' } };
    season.add('batch.neutralizerAdded', `06-01 ${when}`, data, { plusMinusMinutes: minutes });
    if (read !== null) batch.chlorine(`06-01 ${read}`, { total: mgPerL(0.05) });
    batch.fed('06-01 07:00', 'C-1');
    expect(outcomeOf(season.season(), 'chloramine-handled', 'T-14').outcome).toBe(verdict);
  });

  it('a reading of free chlorine does not show chloramine', () => {
    const { season, batch } = filled();
    batch.chlorine('06-01 05:30', { free: mgPerL(0) }).fed('06-01 07:00', 'C-1');
    const outcome = outcomeOf(season.season(), 'chloramine-handled', 'T-14');
    expect(outcome.outcome).toBe('broken');
    expect(outcome.message).toContain('does not show chloramine');
  });

  it('a strip between 0 and 0.5 mg/L does not tell', () => {
    const { season, batch } = filled();
    batch.chlorine('06-01 06:30', { total: mgPerL(0, { qualifier: 'between', high: 0.5 }) }).fed('06-01 07:00', 'C-1');
    expect(outcomeOf(season.season(), 'chloramine-handled', 'T-14').outcome).toBe('unknown');
  });

  it('asks for the reading before the food goes in', () => {
    const { season } = filled();
    const outcome = outcomeOf(season.season(), 'chloramine-handled', 'T-14', { now: instant('06-01 06:00') });
    expect(outcome).toMatchObject({ outcome: 'due', due: 'measure total chlorine before the food goes in' });
  });
});
