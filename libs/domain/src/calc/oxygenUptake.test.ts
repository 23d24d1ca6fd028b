import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import checks from '../../../../test/checks/oxygen-uptake.json' with { type: 'json' };
import { instantOf, textWithOffset } from '../calendar/index.ts';
import { isRefusal } from './calculation.ts';
import { fieller, leastSquares, slopeError } from './leastSquares.ts';
import { oxygenUptakeOf } from './oxygenForecast.ts';
import { oxygenUptake } from './oxygenUptake.ts';
import { criticalT } from './studentT.ts';

const start = instantOf('2026-06-03T06:00:00-05:00');
const minute = 60_000;
const points = (minutes: readonly number[], mgPerL: readonly number[]) =>
  minutes.map((m, i) => ({ at: start + m * minute, mgPerL: mgPerL[i] ?? NaN }));
const stamp = (m: number) => `2026-06-03T06:${String(m).padStart(2, '0')}:00-05:00`;
const stampAt = (m: number) => textWithOffset(start + m * minute, -300);
const ask = (mgPerL: readonly number[], limit = 4) =>
  oxygenUptake.run({
    readings: mgPerL.map((value, m) => ({ at: stamp(m), dissolvedOxygen: { value, unit: 'mg/L' } })),
    limit: { value: limit, unit: 'mg/L' },
  });

describe('least squares and Student’s t against the outside', () => {
  it(`agrees with the certified values: ${checks.leastSquares.source}`, () => {
    const { x, y, slope, intercept, slopeError: error, residualDeviation, interceptError } = checks.leastSquares;
    const line = leastSquares(x.map((v, i) => ({ x: v, y: y[i] ?? NaN })));
    if (line === null) throw new Error('no line');
    expect(Math.abs(line.slope / slope - 1)).toBeLessThan(1e-12);
    expect(Math.abs((line.mean.y - line.slope * line.mean.x) / intercept - 1)).toBeLessThan(1e-9);
    expect(Math.abs(slopeError(line) / error - 1)).toBeLessThan(1e-9);
    expect(Math.abs(line.deviation / residualDeviation - 1)).toBeLessThan(1e-9);
    const atZero = line.deviation * Math.sqrt(1 / line.count + line.mean.x ** 2 / line.spread);
    expect(Math.abs(atZero / interceptError - 1)).toBeLessThan(1e-9);
  });
  it.each(checks.studentT.rows)('t for 95 % and $degrees degrees of freedom is $t', ({ degrees, t }) => {
    expect(criticalT(0.95, degrees).toFixed(3)).toBe(t.toFixed(3));
  });
  it('t for one and two degrees of freedom has a closed form', () => {
    // F(t) = 1/2 + atan(t)/π, and F(t) = 1/2 + t / (2√(2 + t²)).
    expect(criticalT(0.99, 1)).toBeCloseTo(Math.tan((Math.PI / 2) * 0.99), 8);
    expect(criticalT(0.9, 2)).toBeCloseTo(0.9 * Math.sqrt(2 / (1 - 0.9 ** 2)), 10);
  });
  it('there is no interval where the slope cannot be told from none: t of the slope at or below the critical t', () => {
    // With three readings one degree of freedom is left, for which t at 95 % is 12.706 (any table of Student's t).
    const t = (ys: readonly number[]): { t: number; ends: unknown } => {
      const line = leastSquares(ys.map((y, x) => ({ x, y })));
      if (line === null) throw new Error('no line');
      return { t: Math.abs(line.slope) / slopeError(line), ends: fieller(line, 3, 0.95) };
    };
    // 8, 7 ± e, 6: the slope is -1 and its error e·√(1/3)·… ; both sides of 12.706 within a fifth.
    const wide = t([8, 7.15, 6]);
    const narrow = t([8, 7.12, 6]);
    expect([wide.t < 12.706, wide.ends]).toEqual([true, null]);
    expect(narrow.t).toBeGreaterThan(12.706);
    expect(narrow.ends).not.toBeNull();
  });
  it('the ends of Fieller’s interval are where the confidence band of the line meets the level', () => {
    const value = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(fc.array(value, { minLength: 4, maxLength: 12 }), (noise) => {
        const line = leastSquares(noise.map((n, i) => ({ x: i, y: 20 - 2 * i + n })));
        const ends = line === null ? null : fieller(line, 3, 0.95);
        if (line === null || ends === null) return;
        for (const x of [ends.from, ends.to]) {
          const band =
            criticalT(0.95, line.count - 2) *
            line.deviation *
            Math.sqrt(1 / line.count + (x - line.mean.x) ** 2 / line.spread);
          expect(Math.abs(line.mean.y + line.slope * (x - line.mean.x) - 3)).toBeCloseTo(band, 6);
        }
      }),
    );
  });
});

describe('oxygen uptake rate', () => {
  it.each(checks.constructed)('constructed readings $mgPerL fall $ratePerHour mg/L per hour', (set) => {
    const found = oxygenUptakeOf(points(set.minutes, set.mgPerL), 4);
    expect(found.kind === 'forecast' ? Number(found.rate.toFixed(2)) : found).toBe(set.ratePerHour);
  });
  it('readings on a line fall from 8.0 to 4.0 mg/L at 0.4 mg/L a minute in exactly ten minutes', () => {
    const made = ask([8, 7.6, 7.2, 6.8, 6.4, 6, 5.6]);
    expect(made).toMatchObject({
      rate: { value: 24, unit: 'mg/L/h' },
      reachesLimitAt: stamp(10),
      interval: { from: stamp(10), to: stamp(10), confidence: 0.95 },
    });
  });
  it('the interval of the second set, worked by hand', () => {
    // Slope −0.417143 mg/L/min, mean (2.5 min, 6.8333 mg/L), residual deviation 0.045251 with 4 degrees of freedom,
    // Sxx 17.5, t 2.77645: g = 0.0051844, centre 2.5 + 6.79224/(1 − g) = 9.32764 min,
    // half width 0.301185/0.9948156 × √(0.9948156/6 + 6.79224²/17.5) = 0.506953 min: 8.8207 to 9.8346 min.
    const found = oxygenUptakeOf(points([0, 1, 2, 3, 4, 5], [7.9, 7.4, 7.1, 6.6, 6.2, 5.8]), 4);
    if (found.kind !== 'forecast') throw new Error(found.why);
    expect((found.reachesLimitAt - start) / minute).toBeCloseTo(9.2922, 3);
    expect((found.interval.from - start) / minute).toBeCloseTo(8.8207, 2);
    expect((found.interval.to - start) / minute).toBeCloseTo(9.8346, 2);
  });
  it('shows its working: which readings count, how fast oxygen falls and how sure that is', () => {
    // The first reading, still rising, and the last, with the air back on, do not count. Of the other four: mean (2.5 min,
    // 7.35 mg/L), Sxx 5, Sxy −2.1, so −0.42 mg/L/min or 25.2 mg/L/h; residuals ±0.02 and ±0.06, their squares 0.008 with
    // 2 degrees of freedom: √(0.004 / 5) × 60 = 1.697 mg/L/h. 4 mg/L after 2.5 + 3.35 / 0.42 = 10.476 min.
    expect(ask([7.6, 8, 7.5, 7.2, 6.7, 7.4])).toMatchObject({
      working: [
        `4 of 6 readings lie on the declining limb, ${stamp(1)} to ${stamp(4)}`,
        'Least squares: oxygen falls 25.2 mg/L per hour (standard error 1.7)',
        `The line reaches 4 mg/L at ${stamp(10).replace(':00-', ':29-')}; 95 % interval of that moment by Fieller’s method, t with 2 degrees of freedom`,
      ],
    });
  });
  it('uses the declining limb only: rising bubbles before it and the air back on after it do not count', () => {
    const found = oxygenUptakeOf(points([0, 1, 2, 3, 4, 5, 6, 7], [7.7, 7.9, 8, 7.6, 7.2, 6.8, 7.4, 7.9]), 4);
    expect(found.kind === 'forecast' ? [found.used.length, Number(found.rate.toFixed(6))] : found).toEqual([4, 24]);
  });
  it('a level stretch at the top, while bubbles still rise, is not part of the decline', () => {
    const found = oxygenUptakeOf(points([0, 1, 2, 3, 4, 5], [8, 8, 8, 7.6, 7.2, 6.8]), 4);
    expect(found.kind === 'forecast' ? [found.used.length, Number(found.rate.toFixed(6))] : found).toEqual([4, 24]);
  });
  it('warns where the limit lies further beyond the last reading than twice the time that was read', () => {
    // 8, 7 and 6 mg/L at 0, 30 and 60 minutes: 2 mg/L an hour. 2 mg/L after 3 h is 2 h, twice the readings' hour, on.
    const caution = (limit: number) => {
      const made = oxygenUptake.run({
        readings: [8, 7, 6].map((value, i) => ({ at: stampAt(30 * i), dissolvedOxygen: { value, unit: 'mg/L' } })),
        limit: { value: limit, unit: 'mg/L' },
      });
      if (!('reachesLimitAt' in made)) throw new Error('no forecast');
      return [made.reachesLimitAt, made.cautions?.some((each) => each.includes('far beyond the readings'))];
    };
    expect(caution(5)).toEqual([stampAt(90), false]);
    expect(caution(2)).toEqual([stampAt(180), false]);
    expect(caution(1.9)).toEqual([stampAt(183), true]);
  });
  it('readings delivered out of order, in any unit of concentration, say the same', () => {
    const made = oxygenUptake.run({
      readings: [3, 0, 2, 1].map((m) => ({ at: stamp(m), dissolvedOxygen: { value: 8000 - 400 * m, unit: 'ug/L' } })),
      limit: { value: 0.004, unit: 'g/L' },
    });
    expect(made).toMatchObject({ rate: { value: 24 }, reachesLimitAt: stamp(10) });
  });
});

describe('when readings do not tell', () => {
  it.each([
    ['none', []],
    ['two', [8, 7]],
    ['a rise', [5, 6, 7, 8]],
    ['a standstill', [7, 7, 7, 7]],
    ['a fall by two readings only', [5, 8, 7]],
    ['scatter', [8, 5, 8, 5, 7.9, 4.9]],
  ])('%s: undetermined, with the reason', (_, readings) => {
    const made = ask(readings);
    expect(made).toHaveProperty('undetermined');
    expect(made).not.toHaveProperty('reachesLimitAt');
  });
  it('three readings that wander are no ground for a forecast', () => {
    expect(ask([8, 6.9, 6.8])).toMatchObject({ undetermined: expect.stringContaining('scatter') });
  });
  it('below the limit from the start: the rate, and no forecast into the past', () => {
    expect(ask([8, 7.6, 7.2, 6.8], 8.5)).toMatchObject({
      undetermined: expect.stringContaining('already'),
      rate: { value: 24 },
    });
  });
  it('at the limit when the decline begins there is nothing left to forecast', () => {
    expect(ask([8, 7.6, 7.2, 6.8], 8)).toMatchObject({ undetermined: expect.stringContaining('already') });
  });
  it('too slow for a forecast within a week', () => {
    const readings = [0, 10, 20, 30].map((m, i) => ({
      at: stamp(m),
      dissolvedOxygen: { value: 8 - 0.001 * i, unit: 'mg/L' },
    }));
    expect(oxygenUptake.run({ readings, limit: { value: 6, unit: 'mg/L' } })).toMatchObject({
      undetermined: expect.stringContaining('week'),
    });
  });
  it('impossible readings are refused', () => {
    const made = ask([800, 760, 720]);
    expect(isRefusal(made) ? made.refused.errors[0]?.pointer : made).toBe('/readings/0/dissolvedOxygen/value');
    const noOffset = oxygenUptake.run({
      readings: [{ at: '2026-06-03T06:00:00', dissolvedOxygen: { value: 8, unit: 'mg/L' } }],
      limit: { value: 4, unit: 'mg/L' },
    });
    expect(isRefusal(noOffset) ? noOffset.refused.errors[0]?.pointer : noOffset).toBe('/readings/0/at');
  });
});

describe('laws', () => {
  it('a true line is found whatever its rate, and the forecast lies on it', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 60 }), fc.integer({ min: 3, max: 12 }), (perHour, n) => {
        const minutes = Array.from({ length: n }, (_, i) => i * 2);
        const found = oxygenUptakeOf(
          points(
            minutes,
            minutes.map((m) => 9 - (perHour * m) / 60),
          ),
          0,
        );
        if (found.kind !== 'forecast') throw new Error(found.why);
        expect(found.rate).toBeCloseTo(perHour, 6);
        expect((found.reachesLimitAt - start) / 3_600_000).toBeCloseTo(9 / perHour, 6);
      }),
    );
  });
  it('the forecast lies inside its interval', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -0.2, max: 0.2, noNaN: true }), { minLength: 4, maxLength: 10 }),
        (noise) => {
          const found = oxygenUptakeOf(
            points(
              noise.map((_, i) => i),
              noise.map((e, i) => 8 - 0.4 * i + e),
            ),
            2,
          );
          return (
            found.kind === 'undetermined' ||
            (found.interval.from <= found.reachesLimitAt && found.reachesLimitAt <= found.interval.to)
          );
        },
      ),
    );
  });
});
