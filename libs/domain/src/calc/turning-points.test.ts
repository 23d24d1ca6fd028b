import { describe, expect, it } from '@jest/globals';
import { calculations, isRefusal, type CalculationName } from './index.ts';
import { fieller, leastSquares } from './leastSquares.ts';
import { oxygenUptakeOf } from './oxygenForecast.ts';
import { figure } from './figures.ts';
import { scaleFactor } from './scaleRecipe.ts';
import { gallonsPerAcre } from './sprayerOutput.ts';
import { criticalT } from './studentT.ts';

/* The figure at which a calculation says something else: tried on it and on either side. */
const ask = (name: CalculationName, question: unknown) => calculations[name].run(question);
const words = (name: CalculationName, question: unknown) => JSON.stringify(ask(name, question));
const refused = (name: CalculationName, question: unknown) => isRefusal(ask(name, question));
const q = (value: number, unit: string) => ({ value, unit });

describe('a compost mix', () => {
  const mix = (carbonPercent: number, moisturePercent: number, nitrogenPercent = 1) =>
    words('compost-mix', { parts: [{ mass: q(10, 'kg'), moisturePercent, carbonPercent, nitrogenPercent }] });
  // 7 CFR 205.203(c)(2): between 25:1 and 40:1; moisture 45 to 60 % by Cooperband 2002. One part of N 1 %: the ratio is C.
  it.each([
    [24.9, true],
    [25, false],
    [40, false],
    [40.1, true],
  ])('a ratio of %s to one: outside %s', (ratio, outside) => {
    expect(mix(ratio, 50).includes('Outside 25:1 to 40:1')).toBe(outside);
  });
  it.each([
    [44.9, true],
    [45, false],
    [60, false],
    [60.1, true],
  ])('%s %% moisture: outside %s', (moisture, outside) => {
    expect(mix(30, moisture).includes('Outside 45 to 60 % moisture')).toBe(outside);
  });
  it('has nothing to warn about between, and works out dry matter, carbon and nitrogen of each part', () => {
    const parts = [{ mass: q(10, 'kg'), moisturePercent: 50, carbonPercent: 30, nitrogenPercent: 1 }];
    expect(ask('compost-mix', { parts })).not.toHaveProperty('cautions');
    // 10 kg, half water: 5 kg dry, of which 30 % and 1 %.
    expect(ask('compost-mix', { parts })).toMatchObject({
      working: [
        'Part 1: 10 kg, dry 5 kg; carbon 1.5 kg, nitrogen 0.05 kg',
        'Sum of carbon ÷ sum of nitrogen = 30; water ÷ all = 50 %',
      ],
    });
  });
  it('carbon and nitrogen may be all of the dry matter, and no more', () => {
    const all = (nitrogenPercent: number) =>
      refused('compost-mix', {
        parts: [{ mass: q(10, 'kg'), moisturePercent: 50, carbonPercent: 60, nitrogenPercent }],
      });
    expect([all(40), all(40.1)]).toEqual([false, true]);
  });
});

describe('a neutralizer', () => {
  it('above 4 mg/L of chlorine, the most that drinking water may carry (40 CFR 141.65), the reading is doubted', () => {
    const dose = (mgPerL: number) =>
      words('neutralizer-dose', {
        ...{ volume: q(1000, 'L'), chlorine: q(mgPerL, 'mg/L'), neutralizer: 'ascorbicAcid' },
      });
    expect(dose(4)).not.toContain('40 CFR 141.65');
    expect(dose(4.01)).toContain('40 CFR 141.65');
  });
  it.each([
    ['ascorbicAcid', ['lowers the pH', 'disputed']],
    ['sodiumAscorbate', ['disputed']],
    ['sodiumSulfite', ['dissolved oxygen']],
    ['sodiumBisulfite', ['dissolved oxygen']],
    ['sodiumMetabisulfite', ['dissolved oxygen']],
    ['sodiumThiosulfate', ['dissolved oxygen', '0.56 to 4.5']],
    ['calciumThiosulfate', ['dissolved oxygen', '0.56 to 4.5']],
  ])('%s says what is its own: %s', (neutralizer, own) => {
    const said = words('neutralizer-dose', { volume: q(1000, 'L'), chlorine: q(1, 'mg/L'), neutralizer });
    for (const each of ['lowers the pH', 'disputed', 'use up dissolved oxygen', '0.56 to 4.5'])
      expect([each, said.includes(each)]).toEqual([each, own.some((word) => each.includes(word))]);
  });
});

describe('oxygen at saturation', () => {
  const at = (more: object) => ({ temperature: q(20, 'Cel'), ...more });
  it('serves 0 to 45 °C, and says above 40 °C that it is stretched', () => {
    const temperature = (celsius: number) => ({ temperature: q(celsius, 'Cel') });
    expect([-0.1, 0, 45, 45.1].map((c) => refused('oxygen-saturation', temperature(c)))).toEqual([
      ...[true, false, false, true],
    ]);
    expect(words('oxygen-saturation', temperature(40))).not.toContain('stretched');
    expect(words('oxygen-saturation', temperature(40.1))).toContain('stretched');
  });
  it('serves 0.5 to 1.1 atm, and 0 to 40 g/kg of salt', () => {
    expect([0.499, 0.5, 1.1, 1.101].map((p) => refused('oxygen-saturation', at({ pressure: q(p, 'atm') })))).toEqual([
      ...[true, false, false, true],
    ]);
    expect(
      [-0.1, 0, 40, 40.1].map((salinityPerMille) => refused('oxygen-saturation', at({ salinityPerMille }))),
    ).toEqual([...[true, false, false, true]]);
  });
  it('tells what it worked with: the pressure given, the height, or sea level', () => {
    expect(words('oxygen-saturation', at({ pressure: q(1, 'atm') }))).toContain('Pressure as given: 101.325 kPa');
    expect(words('oxygen-saturation', at({ elevation: q(0, 'm') }))).toContain(
      'Standard atmosphere at 0 m: 101.325 kPa',
    );
    expect(ask('oxygen-saturation', at({}))).toMatchObject({ pressure: { value: 101.325, unit: 'kPa' } });
    expect(ask('oxygen-saturation', at({}))).not.toHaveProperty('percent');
  });
});

describe('a recipe for another volume', () => {
  it('may be written for less than a litre, not for nothing; volumes that do not compare give no factor', () => {
    expect(scaleFactor(q(0.5, 'L'), q(2, 'L'))?.toNumber()).toBe(4);
    expect(scaleFactor(q(0, 'L'), q(2, 'L'))).toBeNull();
    expect(scaleFactor(q(1, 'kg'), q(2, 'L'))).toBeNull();
    expect(scaleFactor(q(1, 'L'), q(2, 'kg'))).toBeNull();
  });
});

describe('a sprayer’s output', () => {
  it.each([
    ['a flow', [q(1, 'kg'), q(5, '[mi_i]/h'), q(20, '[in_i]')]],
    ['a speed', [q(0.4, '[gal_us]/min'), q(5, 'h'), q(20, '[in_i]')]],
    ['a spacing', [q(0.4, '[gal_us]/min'), q(5, '[mi_i]/h'), q(20, 'L')]],
  ] as const)('is not told where %s is written in a unit of something else', (_what, [flow, speed, spacing]) => {
    expect(gallonsPerAcre(flow, speed, spacing)).toBeNull();
  });
});

describe('a figure for the eye', () => {
  it.each([
    [0, '0'],
    [-0, '0'],
    [NaN, 'NaN'],
    [Infinity, 'Infinity'],
    [1 / 3, '0.333333'],
    [-2 / 3, '-0.666667'],
    [200, '200'],
    [1234.5678, '1234.57'],
    [0.00001234567, '0.0000123457'],
  ])('%s is written %s', (n, text) => {
    expect(figure(n)).toBe(text);
  });
});

describe('a line through readings', () => {
  it('asks for three points at more than one time', () => {
    expect(
      leastSquares([
        { x: 0, y: 1 },
        { x: 1, y: 2 },
      ]),
    ).toBeNull();
    expect(leastSquares([0, 0, 0].map((x, y) => ({ x, y })))).toBeNull();
    expect(leastSquares([0, 1, 2].map((x) => ({ x, y: 2 * x })))).toMatchObject({ slope: 2, deviation: 0, count: 3 });
  });
  it('through points that lie on it reaches a level at one moment: 8 falling by 2 is at 3 after 2.5', () => {
    const line = leastSquares([0, 1, 2].map((x) => ({ x, y: 8 - 2 * x })));
    expect(line && fieller(line, 3, 0.95)).toEqual({ from: 2.5, to: 2.5 });
  });
  it('is the same line whenever the clock began: by seconds since 1970 as by seconds since the first reading', () => {
    const readings = [8.1, 8.03, 7.9, 7.77];
    const line = (clock: number) => leastSquares(readings.map((y, i) => ({ x: clock + 1000 * i, y })));
    const [first, later] = [line(0), line(Date.parse('2026-06-03T06:00:00Z'))];
    expect([later?.slope, later?.spread, later?.deviation]).toEqual([first?.slope, first?.spread, first?.deviation]);
  });
  it('falls as steeply from whatever height it starts: from 2³⁰ as from nothing', () => {
    const line = (height: number) =>
      leastSquares([
        { x: 0.1, y: height + 0.5 },
        { x: 0.2, y: height + 0.25 },
        { x: 0.4, y: height },
      ]);
    expect([line(2 ** 30)?.slope, line(2 ** 30)?.deviation]).toEqual([line(0)?.slope, line(0)?.deviation]);
  });
  it('has no critical t for no degree of freedom, nor for half a one', () => {
    expect(() => criticalT(0.95, 0)).toThrow(RangeError);
    expect(() => criticalT(0.95, 1.5)).toThrow(RangeError);
    // Student's t, two-sided 95 %, any table: 12.706, 4.303, 3.182, 2.776, 2.571.
    expect([1, 2, 3, 4, 5].map((n) => criticalT(0.95, n).toFixed(3))).toEqual([
      ...['12.706', '4.303', '3.182', '2.776', '2.571'],
    ]);
  });
});

describe('oxygen running out', () => {
  const hour = 3_600_000;
  const fall = (perHour: number, limit: number) =>
    oxygenUptakeOf(
      [0, 1, 2].map((h) => ({ at: h * hour, mgPerL: 8 - perHour * h })),
      limit,
    );
  it('is foretold up to a week after the last reading, not beyond', () => {
    // 8 mg/L falling by 1/32 an hour (exact in binary) is at 2.6875 after 170 h, which is 168 h after the reading at 2 h.
    expect(fall(1 / 32, 2.6875)).toMatchObject({ kind: 'forecast', reachesLimitAt: 170 * hour });
    expect(fall(1 / 32, 2.65625)).toMatchObject({ kind: 'undetermined' });
  });
  it('readings all of one moment tell no decline', () => {
    const found = oxygenUptakeOf(
      [8, 7, 6].map((mgPerL) => ({ at: 0, mgPerL })),
      4,
    );
    expect(found).toMatchObject({ kind: 'undetermined', why: 'The readings were all taken at the same moment.' });
  });
  it('more than 60 mg/L is no oxygen in water; 60 is taken', () => {
    const reading = (mgPerL: number) => ({
      readings: [{ at: '2026-06-03T06:00:00-05:00', dissolvedOxygen: q(mgPerL, 'mg/L') }],
      limit: q(4, 'mg/L'),
    });
    expect([60, 60.1].map((mgPerL) => refused('oxygen-uptake', reading(mgPerL)))).toEqual([false, true]);
  });
  it('far beyond the readings it says so: more than twice their time after the last', () => {
    const asked = (limit: number) =>
      words('oxygen-uptake', {
        readings: [0, 10, 20].map((minute) => ({
          at: `2026-06-03T06:${String(minute).padStart(2, '0')}:00-05:00`,
          dissolvedOxygen: q(8 - minute / 10, 'mg/L'),
        })),
        limit: q(limit, 'mg/L'),
      });
    // 0.1 mg/L a minute: at 2 mg/L after 60 min, 40 min after the last of 20 min of readings.
    expect(asked(2.1)).not.toContain('far beyond');
    expect(asked(1.9)).toContain('far beyond');
  });
});
