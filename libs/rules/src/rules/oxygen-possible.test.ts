import { describe, expect, it } from '@jest/globals';
import { fahrenheit, ordinary } from '../testing/season.ts';
import { outcomeOf } from '../testing/verdicts.ts';

/**
 * Fresh water at 20 °C and 1 atm holds 9.092 mg/L (APHA 4500-O table, from memory; EN 25814 as printed in a meter
 * manual has 9.09), so 120 % are 10.91 mg/L.
 */
const read = (mgPerL: number, temperature = true) => {
  const season = ordinary();
  season
    .batch('T-14')
    .filled('06-02 05:00')
    .airOn('06-02 05:00')
    .fed('06-02 06:00', 'C-1')
    .oxygen('06-02 12:00', mgPerL, temperature ? { temperature: fahrenheit(68) } : {});
  return outcomeOf(season.season(), 'oxygen-possible', 'T-14');
};

describe('readings that water can hold', () => {
  it.each([
    [10.9, 'met'],
    [10.93, 'caution'],
    [14.8, 'caution'],
  ])('%s mg/L at 68 °F and sea level is %s', (value, verdict) => {
    expect(read(value).outcome).toBe(verdict);
  });

  it('a doubted reading points to the probe', () => {
    expect(read(14.8).message).toContain('look at the probe');
  });

  it('does not apply without a temperature', () => {
    expect(read(14.8, false).outcome).toBe('notApplicable');
  });

  it('at 2,000 m the same water holds a fifth less (79,495 Pa by the standard atmosphere)', () => {
    const season = ordinary({ elevation: { value: 2000, unit: 'm' } });
    season
      .batch('T-14')
      .filled('06-02 05:00')
      .airOn('06-02 05:00')
      .fed('06-02 06:00', 'C-1')
      .oxygen('06-02 12:00', 9, { temperature: fahrenheit(68) });
    // 9.092 × about 0.78 are 7.1 mg/L; 9 mg/L are 127 % of it.
    expect(outcomeOf(season.season(), 'oxygen-possible', 'T-14').outcome).toBe('caution');
  });
});
