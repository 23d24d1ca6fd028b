import { describe, expect, it } from '@jest/globals';
import { gal, instant, mgPerL, ordinary } from '../testing/season.ts';
import { outcomeOf } from '../testing/verdicts.ts';

/**
 * 15 to 20 min of air before the food: common practice, no source. Air drives free chlorine off with time (USDA Forest
 * Service tech tip 0523-1301-SDTDC, 2005). Filled and air on at 05:00.
 */
const town = () => ordinary().source('Town', { kind: 'municipal', disinfectant: 'chlorine' });
const fedAt = (food: string, free?: Parameters<typeof mgPerL>) => {
  const season = town();
  const batch = season.batch('T-14').filled('06-02 05:00', gal(250), 'Town').airOn('06-02 05:00');
  if (free !== undefined) batch.chlorine('06-02 05:05', { free: mgPerL(...free) });
  batch.fed(food, 'C-1');
  return outcomeOf(season.season(), 'chlorine-dissipated', 'T-14');
};

describe('chlorine gone before the food goes in', () => {
  it.each([
    ['06-02 05:20', 'met', 'exactly 20 min'],
    ['06-02 05:19', 'caution', '19 min are short of what is advised'],
    ['06-02 05:15', 'caution', 'exactly 15 min belong to the allowed side'],
    ['06-02 05:14', 'broken', '14 min break the limit'],
  ])('food at %s is %s: %s', (food, verdict) => {
    expect(fedAt(food).outcome).toBe(verdict);
  });

  it('a reading at or below 0.1 mg/L outranks minutes that were too few', () => {
    expect(fedAt('06-02 05:10', [0.1]).outcome).toBe('met');
  });

  it('a reading above 0.1 mg/L outranks minutes that would have been enough', () => {
    expect(fedAt('06-02 06:00', [0.11]).outcome).toBe('broken');
  });

  it('a strip that saw none below 0.5 leaves the minutes to decide', () => {
    const none: Parameters<typeof mgPerL> = [0.5, { qualifier: 'notDetected' }];
    expect(fedAt('06-02 05:20', none).outcome).toBe('met');
    expect(fedAt('06-02 05:14', none).outcome).toBe('broken');
    expect(fedAt('06-02 05:20', [0, { qualifier: 'between', high: 0.5 }]).outcome).toBe('met');
  });

  it('a reading above the limit of 0.1 mg/L outranks the minutes though nobody knows by how much', () => {
    expect(fedAt('06-02 05:40', [0.1, { qualifier: '>' }]).outcome).toBe('broken');
    expect(fedAt('06-02 05:40', [0.09, { qualifier: '>' }]).outcome).toBe('met');
  });

  it('shows a reading with its range where it has one', () => {
    expect(fedAt('06-02 06:00', [0.2]).figures).toEqual([
      { name: 'freeChlorineMgPerL', value: 0.2, unit: 'mg/L', limit: 0.1 },
    ]);
    expect(fedAt('06-02 06:00', [0.2, { qualifier: 'between', high: 0.3 }]).figures).toEqual([
      { name: 'freeChlorineMgPerL', value: 0.2, unit: 'mg/L', range: [0.2, 0.3], limit: 0.1 },
    ]);
    expect(fedAt('06-02 06:00', [0.2, { qualifier: '>' }]).figures[0]).not.toHaveProperty('range');
  });

  it('an interruption begins the minutes anew', () => {
    const season = town();
    season
      .batch('T-14')
      .filled('06-02 05:00', gal(250), 'Town')
      .airOn('06-02 05:00')
      .airOff('06-02 05:18')
      .airOn('06-02 05:20')
      .fed('06-02 05:30', 'C-1');
    expect(outcomeOf(season.season(), 'chlorine-dissipated', 'T-14')).toMatchObject({
      outcome: 'broken',
      figures: [{ name: 'preAerationMinutes', value: 10 }],
    });
  });

  it('well water is not asked for', () => {
    const season = ordinary();
    season.batch('T-14').filled('06-02 05:00').airOn('06-02 05:00').fed('06-02 05:01', 'C-1');
    expect(outcomeOf(season.season(), 'chlorine-dissipated', 'T-14').outcome).toBe('notApplicable');
  });

  it.each([
    ['06-02 05:14', 'unknown', '14 min: only a reading tells'],
    ['06-02 05:15', 'caution', '15 min are enough without it, short of what is advised'],
    ['06-02 05:20', 'met', '20 min are enough without it'],
  ])('a neutralizer, and food at %s: %s, %s', (food, verdict) => {
    const season = town()
      .material('vitamin C', { kind: 'neutralizer' })
      .lot('N-1', 'vitamin C', { value: 500, unit: 'g' });
    season
      .batch('T-14')
      .filled('06-02 05:00', gal(250), 'Town')
      .airOn('06-02 05:00')
      .neutralized('06-02 05:02', 'N-1')
      .fed(food, 'C-1');
    expect(outcomeOf(season.season(), 'chlorine-dissipated', 'T-14').outcome).toBe(verdict);
  });

  it('tells from when on the food may go in', () => {
    const season = town();
    season.batch('T-14').filled('06-02 05:00', gal(250), 'Town').airOn('06-02 05:02');
    const at = (now: string) => outcomeOf(season.season(), 'chlorine-dissipated', 'T-14', { now: instant(now) });
    expect(at('06-02 05:10')).toMatchObject({ outcome: 'due', dueAt: instant('06-02 05:22') });
    expect(at('06-02 05:22').outcome).toBe('met');
  });

  it('without air, or with the air off again, the air is what comes next, from the end of the fill', () => {
    const due = { outcome: 'due', dueAt: instant('06-02 05:00'), due: 'put the air on' };
    const season = town();
    const batch = season.batch('T-14').filled('06-02 05:00', gal(250), 'Town');
    const at = (now: string) => outcomeOf(season.season(), 'chlorine-dissipated', 'T-14', { now: instant(now) });
    expect(at('06-02 05:30')).toMatchObject(due);
    batch.airOn('06-02 05:02').airOff('06-02 05:30');
    expect(at('06-02 06:00')).toMatchObject(due);
  });

  it('a source whose disinfectant nobody knows cannot be told about while the minutes are few', () => {
    const season = ordinary().source('Hose', { kind: 'municipal', disinfectant: 'unknown' });
    season.batch('T-14').filled('06-02 05:00', gal(250), 'Hose').airOn('06-02 05:00').fed('06-02 05:10', 'C-1');
    expect(outcomeOf(season.season(), 'chlorine-dissipated', 'T-14').outcome).toBe('unknown');
  });

  it('the utility changed to chloramine in May: the June batch is asked about chloramine, the April one about chlorine', () => {
    const season = town();
    season.add('source.revised', '05-15 00:00', { sourceId: season.idOf('Town'), disinfectant: 'chloramine' });
    season
      .batch('April', '04-02 04:00')
      .filled('04-02 05:00', gal(250), 'Town')
      .airOn('04-02 05:00')
      .fed('04-02 05:30', 'C-1');
    season
      .batch('June', '06-02 04:00')
      .filled('06-02 05:00', gal(250), 'Town')
      .airOn('06-02 05:00')
      .fed('06-02 05:30', 'C-1');
    const open = season.season();
    expect(outcomeOf(open, 'chlorine-dissipated', 'April').outcome).toBe('met');
    expect(outcomeOf(open, 'chloramine-handled', 'April').outcome).toBe('notApplicable');
    expect(outcomeOf(open, 'chlorine-dissipated', 'June').outcome).toBe('notApplicable');
    expect(outcomeOf(open, 'chloramine-handled', 'June').outcome).toBe('broken');
  });

  it('a reading that may have been taken after the food tells nothing of before, and is asked where it decides', () => {
    // Food at 05:14, too early by the minutes; 0.1 mg/L about 05:10.
    const judged = (plusMinusMinutes: number, food = '06-02 05:14') => {
      const season = town();
      season
        .batch('T-14')
        .filled('06-02 05:00', gal(250), 'Town')
        .airOn('06-02 05:00')
        .chlorine('06-02 05:10', { free: mgPerL(0.1) }, {}, { plusMinusMinutes })
        .fed(food, 'C-1');
      return outcomeOf(season.season(), 'chlorine-dissipated', 'T-14').outcome;
    };
    expect(judged(4)).toBe('met');
    expect(judged(5)).toBe('unknown');
    // By the minutes alone the chlorine is gone as well.
    expect(judged(30, '06-02 05:30')).toBe('met');
  });
});
