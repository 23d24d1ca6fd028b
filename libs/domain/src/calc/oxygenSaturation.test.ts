import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import checks from '../../../../test/checks/oxygen.json' with { type: 'json' };
import { isRefusal } from './calculation.ts';
import { oxygenSaturation, pressureAtElevation, saturationMgPerL, type SaturationAnswer } from './oxygenSaturation.ts';

const celsius = (value: number) => ({ value, unit: 'Cel' });
function answer(question: object): SaturationAnswer {
  const made = oxygenSaturation.run(question);
  if (isRefusal(made)) throw new Error(made.refused.detail);
  return made;
}
function pointers(question: object): string[] {
  const made = oxygenSaturation.run(question);
  return isRefusal(made) ? made.refused.errors.map((e) => e.pointer) : [];
}

describe('oxygen at saturation against printed tables', () => {
  it.each(checks.tables)('$source', ({ rows, tolerance }) => {
    for (const row of rows) {
      expect(Math.abs(saturationMgPerL(row.celsius) - row.mgPerL)).toBeLessThanOrEqual(tolerance);
    }
  });
  it(checks.salt.source, () => {
    for (const { celsius: c, chlorinity, mgPerL } of checks.salt.rows) {
      expect(Math.abs(saturationMgPerL(c, 1, 1.80655 * chlorinity) - mgPerL)).toBeLessThanOrEqual(
        checks.salt.tolerance,
      );
    }
  });
  it(`the first gram of salt: ${checks.saltLinear.source}`, () => {
    for (const { celsius: c, perGramOfSalt } of checks.saltLinear.rows) {
      const lost = saturationMgPerL(c) - saturationMgPerL(c, 1, 1);
      expect(Math.abs(lost - perGramOfSalt)).toBeLessThanOrEqual(checks.saltLinear.tolerance);
    }
  });
  it(checks.altitude.source, () => {
    for (const row of checks.altitude.rows) {
      for (const [metres, printed] of [
        [0, row.at0m],
        [300, row.at300m],
        [600, row.at600m],
      ] as const) {
        const ours = answer({ temperature: celsius(row.celsius), elevation: { value: metres, unit: 'm' } });
        expect(Math.abs(ours.saturation.value - printed)).toBeLessThanOrEqual(checks.altitude.tolerance);
      }
    }
  });
  it.each(checks.pressure.rows)(
    `$atm atm at $celsius °C: the pressure times $factor (${checks.pressure.source})`,
    ({ celsius: c, atm, factor }) => {
      const ours = saturationMgPerL(c, atm) / saturationMgPerL(c, 1) / atm;
      expect(Math.abs(ours - factor)).toBeLessThanOrEqual(checks.pressure.tolerance);
    },
  );
  it.each(checks.standardAtmosphere.rows)(
    'at $metres m the standard atmosphere has $pascal Pa',
    ({ metres, pascal }) => {
      expect(Math.abs(pressureAtElevation(metres) * 101325 - pascal)).toBeLessThan(1);
    },
  );
  it('6 mg/L is more than water can hold above about 44 °C', () => {
    expect(saturationMgPerL(43)).toBeGreaterThan(6);
    expect(saturationMgPerL(45)).toBeLessThan(6);
  });
});

describe('the question', () => {
  it('a reading of 7.4 mg/L at 20 °C is 81.4 % of 9.092 mg/L', () => {
    // 7.4 / 9.092 = 0.8139, by hand; 9.092 from the APHA table.
    const { percent } = answer({ temperature: celsius(20), reading: { value: 7.4, unit: 'mg/L' } });
    expect(percent).toBeCloseTo(81.39, 1);
    // Three decimals are told, no more.
    expect(String(percent)).toMatch(/^\d+\.\d{1,3}$/);
  });
  it('takes degrees Fahrenheit, inches of mercury, feet and ppm', () => {
    const metric = answer({
      temperature: celsius(25),
      elevation: { value: 304.8, unit: 'm' },
      reading: { value: 8, unit: 'mg/L' },
    });
    const us = answer({
      temperature: { value: 77, unit: '[degF]' },
      elevation: { value: 1000, unit: '[ft_i]' },
      reading: { value: 8, unit: '[ppm]' },
    });
    expect(us.saturation).toEqual(metric.saturation);
    expect(us.percent).toBe(metric.percent);
    const sea = answer({ temperature: celsius(25), pressure: { value: 29.9213, unit: "[in_i'Hg]" } });
    expect(sea.saturation.value).toBeCloseTo(8.263, 2);
  });
  it('says that it assumed sea level', () => {
    expect(answer({ temperature: celsius(20) }).working.join()).toContain('sea level assumed');
  });
  it('shows its working: five figures of the saturation, four of the share', () => {
    // 100 % at 20 °C and sea level is 9.092 mg/L (APHA; ../../../../test/checks/dissolved-oxygen); 8 of it 87.99 %.
    const { working } = answer({ temperature: celsius(20), reading: { value: 8, unit: 'mg/L' } });
    expect(working[1]).toMatch(/^20 °C, 1 atm, salinity 0 g\/kg: 9\.092\d mg\/L$/);
    expect(working[2]).toMatch(/^8 mg\/L ÷ 9\.092\d mg\/L × 100 = 87\.99 %$/);
  });
  it('points to the probe above 120 %', () => {
    expect(answer({ temperature: celsius(20), reading: { value: 11.5, unit: 'mg/L' } }).cautions?.join()).toContain(
      'probe',
    );
    // 10.5 mg/L of 9.092 mg/L is 115.5 %.
    expect(answer({ temperature: celsius(20), reading: { value: 10.5, unit: 'mg/L' } }).cautions).toBeUndefined();
  });
  it('refuses what is outside the equation or impossible, naming the member', () => {
    expect(pointers({ temperature: celsius(46) })).toEqual(['/temperature']);
    expect(pointers({ temperature: celsius(-1) })).toEqual(['/temperature']);
    expect(pointers({ temperature: celsius(20), pressure: { value: 2, unit: 'atm' } })).toEqual(['/pressure']);
    expect(pointers({ temperature: celsius(20), elevation: { value: 9000, unit: 'm' } })).toEqual(['/elevation']);
    expect(pointers({ temperature: celsius(20), elevation: { value: 90_000, unit: 'm' } })).toEqual(['/elevation']);
    expect(
      pointers({ temperature: celsius(20), elevation: { value: 9, unit: 'm' }, pressure: { value: 1, unit: 'atm' } }),
    ).toEqual(['/elevation']);
    expect(pointers({ temperature: celsius(20), salinityPerMille: 41 })).toEqual(['/salinityPerMille']);
    expect(pointers({ temperature: celsius(20), reading: { value: -1, unit: 'mg/L' } })).toEqual(['/reading/value']);
    expect(pointers({ temperature: celsius(20), reading: { value: 8, unit: '%' } })).toEqual(['/reading/unit']);
    expect(pointers({ temperature: { value: 20, unit: 'kg' } })).toEqual(['/temperature/unit']);
    expect(pointers({ temperature: celsius(20), salinity: 3 })).toEqual(['/salinity']);
    expect(pointers({})).toEqual(['/temperature']);
  });
});

describe('laws', () => {
  const t = fc.double({ min: 0, max: 44, noNaN: true });
  const p = fc.double({ min: 0.5, max: 1.09, noNaN: true });
  const s = fc.double({ min: 0, max: 39, noNaN: true });
  it('warmer, higher or saltier water holds less', () => {
    fc.assert(
      fc.property(t, p, s, (c, atm, salt) => {
        const here = saturationMgPerL(c, atm, salt);
        return (
          here > saturationMgPerL(c + 0.5, atm, salt) &&
          here < saturationMgPerL(c, atm + 0.01, salt) &&
          here > saturationMgPerL(c, atm, salt + 1)
        );
      }),
    );
  });
});
