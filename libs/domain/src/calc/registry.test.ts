import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { z } from 'zod';
import compost from '../../../../test/checks/compost.json' with { type: 'json' };
import chlorine from '../../../../test/checks/dechlorination.json' with { type: 'json' };
import micro from '../../../../test/checks/microbiology.json' with { type: 'json' };
import spraying from '../../../../test/checks/spraying.json' with { type: 'json' };
import { planRequest } from './planRequest.ts';
import { calculations, isCalculation, isRefusal, sprayerLoads, type CalculationName } from './index.ts';

const ask = (name: CalculationName, question: unknown) => calculations[name].run(question);
function refusedAt(name: CalculationName, question: unknown): string[] {
  const made = ask(name, question);
  return isRefusal(made) ? made.refused.errors.map((e) => e.pointer) : [];
}
const q = (value: number, unit: string) => ({ value, unit });

describe('a number in a question', () => {
  it('is below 10¹² in size, as in a record', () => {
    const dose = (value: number) =>
      refusedAt('neutralizer-dose', { volume: q(value, 'L'), chlorine: q(4, 'mg/L'), neutralizer: 'ascorbicAcid' });
    expect(dose(999_999_999_999)).toEqual([]);
    expect(dose(1e12)).toEqual(['/volume/value']);
  });
});

describe('neutralizer dose', () => {
  const tonne = { volume: q(1000, 'L'), chlorine: q(4, 'mg/L') };
  it.each(Object.entries(chlorine.field.massPerMassOfChlorine))(
    `4 g of chlorine in 1,000 L take 4 × the field ratio of %s, %s (${chlorine.field.source})`,
    (neutralizer, ratio) => {
      expect(ask('neutralizer-dose', { ...tonne, neutralizer })).toMatchObject({
        mass: { value: Number((4 * ratio).toFixed(6)), unit: 'g' },
        ratio,
      });
    },
  );
  it.each(Object.entries(chlorine.stoichiometric.massPerMassOfChlorine))(
    'beside it the reaction alone: %s, %s',
    (neutralizer, ratio) => {
      expect(ask('neutralizer-dose', { ...tonne, neutralizer })).toMatchObject({ stoichiometric: { ratio } });
    },
  );
  it('defers to the certifier, and says what each kind does', () => {
    const words = (neutralizer: string) => JSON.stringify(ask('neutralizer-dose', { ...tonne, neutralizer }));
    expect(words('ascorbicAcid')).toContain('certifier');
    expect(words('ascorbicAcid')).toContain('disputed');
    expect(words('sodiumThiosulfate')).toContain('use up dissolved oxygen');
    expect(words('calciumThiosulfate')).toContain('0.56 to 4.5 g per g');
    expect(words('sodiumSulfite')).not.toContain('0.56 to 4.5 g per g');
    expect(words('sodiumAscorbate')).not.toContain('use up dissolved oxygen');
  });
  it('takes gallons and ppm; refuses what it does not know', () => {
    expect(
      ask('neutralizer-dose', { volume: q(1000, '[gal_us]'), chlorine: q(1, '[ppm]'), neutralizer: 'ascorbicAcid' }),
    ).toMatchObject({
      // 3785.411784 L × 1 mg/L × 2.5
      mass: { value: 9.46352946 },
    });
    expect(refusedAt('neutralizer-dose', { ...tonne, neutralizer: 'vinegar' })).toEqual(['/neutralizer']);
    expect(refusedAt('neutralizer-dose', { ...tonne, chlorine: q(-1, 'mg/L'), neutralizer: 'ascorbicAcid' })).toEqual([
      '/chlorine/value',
    ]);
    expect(refusedAt('neutralizer-dose', { ...tonne, volume: q(0, 'L'), neutralizer: 'ascorbicAcid' })).toEqual([
      '/volume/value',
    ]);
  });
});

describe('sprayer output', () => {
  const nozzle = (gpm: number, mph: number, inches: number) => ({
    flowPerNozzle: q(gpm, '[gal_us]/min'),
    speed: q(mph, '[mi_i]/h'),
    nozzleSpacing: q(inches, '[in_i]'),
  });
  it.each(spraying.worked)('$gpm gal/min at $mph mi/h and $spacingIn in: $gpa gal/acre (5940 formula)', (w) => {
    expect(ask('sprayer-output', nozzle(w.gpm, w.mph, w.spacingIn))).toMatchObject({
      rate: { value: w.gpa, unit: '[gal_us]/[acr_us]' },
    });
  });
  it.each(spraying.published)('$widthFt ft, $flOzPerMin fl oz/min at $mph mi/h: about $gpa gal/acre ($source)', (w) => {
    const made = ask('sprayer-output', {
      flowPerNozzle: q(w.flOzPerMin, '[foz_us]/min'),
      speed: q(w.mph, '[mi_i]/h'),
      nozzleSpacing: q(w.widthFt, '[ft_i]'),
    });
    expect(made).toMatchObject({ rate: { value: expect.closeTo(w.gpa, 0) } });
    // By the formula: the page rounds.
    expect(made).toMatchObject({ rate: { value: expect.closeTo(w.exact, 2) } });
  });
  it.each(spraying.course.rows)(
    '1/128 acre at $inches in is a course of $feet ft, so ounces caught on it read as gallons per acre',
    ({ inches, feet }) => {
      // At 5 mi/h = 440 ft/min a nozzle of 20 fl oz on the course gives 20 gal/acre, to the rounding of the printed feet.
      const flow = (20 * 440) / feet;
      const made = ask('sprayer-output', {
        flowPerNozzle: q(flow, '[foz_us]/min'),
        speed: q(5, '[mi_i]/h'),
        nozzleSpacing: q(inches, '[in_i]'),
      });
      expect(made).toMatchObject({ rate: { value: expect.closeTo(20, 0) } });
    },
  );
  it(`metric: ${spraying.metric.source}`, () => {
    // 60000 × 1.6 ÷ (8 × 50) = 240 L/ha
    const made = ask('sprayer-output', {
      flowPerNozzle: q(1.6, 'L/min'),
      speed: q(8, 'km/h'),
      nozzleSpacing: q(50, 'cm'),
      unit: 'L/har',
    });
    expect(made).toMatchObject({ rate: { value: expect.closeTo(240, 9), unit: 'L/har' } });
  });
  it('shows its working in gallons per acre, and once more in the unit asked for where that is another', () => {
    // 5940 × 0.4 ÷ (6 × 20) = 19.8; of 3.785411784 L on 0.40468564224 ha: 185.2 L/ha.
    const working = (unit?: string) => {
      const made = ask('sprayer-output', { ...nozzle(0.4, 6, 20), ...(unit === undefined ? {} : { unit }) });
      return 'working' in made ? made.working : [];
    };
    const formula = expect.stringContaining('= 19.8 gal per acre of 43,560 ft²');
    expect(working()).toEqual([formula]);
    expect(working('[gal_us]/[acr_us]')).toEqual([formula]);
    expect(working('L/har')).toEqual([formula, expect.stringMatching(/^= 185\.\d+ L\/har$/)]);
  });
  it('refuses a speed of 0 and an answer that is no rate', () => {
    expect(refusedAt('sprayer-output', nozzle(0.4, 0, 20))).toEqual(['/speed/value']);
    expect(refusedAt('sprayer-output', { ...nozzle(0.4, 5, 20), unit: '[gal_us]' })).toEqual(['/unit']);
  });
  it('twice the flow is twice the rate, twice the speed half of it', () => {
    const n = fc.integer({ min: 1, max: 500 }).map((v) => v / 100);
    const rate = (question: object) => {
      const made = ask('sprayer-output', question);
      return 'rate' in made && typeof made.rate === 'object' && 'value' in made.rate ? Number(made.rate.value) : NaN;
    };
    fc.assert(
      fc.property(n, n, n, (a, b, c) => {
        const one = rate(nozzle(a, b, c));
        expect(rate(nozzle(2 * a, b, c)) / one).toBeCloseTo(2, 9);
        expect(rate(nozzle(a, 2 * b, c)) / one).toBeCloseTo(0.5, 9);
      }),
    );
  });
  it('250 gal from a tank of 100 gal are two full loads and one of 50', () => {
    const made = sprayerLoads(250, 100);
    expect([made.loads, made.full, made.last.toNumber()]).toEqual([3, 2, 50]);
    expect(sprayerLoads(200, 100).loads).toBe(2);
    expect(sprayerLoads(0, 100).loads).toBe(0);
    expect(() => sprayerLoads(1, 0)).toThrow(RangeError);
  });
});

describe('water statistics', () => {
  const unit = '{CFU}/(100.mL)';
  it.each(micro.published)('$values has a geometric mean of $geometricMean ($source)', ({ values, geometricMean }) => {
    expect(ask('water-statistics', { values, unit })).toMatchObject({
      geometricMean: expect.closeTo(geometricMean, 1),
      count: values.length,
      unit,
    });
  });
  it(`twenty results, ${micro.handWorked.note}`, () => {
    const { values, geometricMean, statisticalThresholdValue } = micro.handWorked;
    expect(ask('water-statistics', { values, unit })).toMatchObject({
      geometricMean: expect.closeTo(geometricMean, 4),
      statisticalThresholdValue: expect.closeTo(statisticalThresholdValue, 4),
    });
  });
  it('10 and 100: s = √½, so the threshold is 10^(1.5 + 1.282 × 0.70711) = 255', () => {
    expect(ask('water-statistics', { values: [10, 100], unit })).toMatchObject({
      statisticalThresholdValue: expect.closeTo(10 ** (1.5 + 1.282 * Math.SQRT1_2), 6),
    });
  });
  it('shows its working: the mean of the logarithms, their deviation, and what comes of them', () => {
    const working = (values: readonly number[]) => {
      const made = ask('water-statistics', { values, unit });
      return 'working' in made ? made.working : made;
    };
    // The logarithms are 1 and 2: mean 1.5, deviation √½; 10^1.5 = 31.6228, 10^(1.5 + 1.282 × 0.707107) = 254.983.
    expect(working([10, 100])).toEqual([
      'Mean of log₁₀ of 2 results: 1.5; geometric mean 10^1.5 = 31.6228',
      'Standard deviation of log₁₀ (n − 1): 0.707107; 10^(1.5 + 1.282 × 0.707107) = 254.983',
    ]);
    expect(working([10])).toEqual([
      'Mean of log₁₀ of 1 results: 1; geometric mean 10^1 = 10',
      'One result has no spread: no statistical threshold value',
    ]);
  });
  it('both figures are given to twelve digits: the same result every time is its own mean and threshold', () => {
    for (const value of [0.1, 3, 7, 126, 235, 410, 99_999]) {
      expect(ask('water-statistics', { values: [value, value, value], unit })).toMatchObject({
        geometricMean: value,
        statisticalThresholdValue: value,
      });
    }
    // 10^(1.5 + 1.282 × √½) = 254.9828044760630…, reckoned to 40 digits; 10^1.5 = 31.6227766016838….
    expect(ask('water-statistics', { values: [10, 100], unit })).toMatchObject({
      geometricMean: 31.6227766017,
      statisticalThresholdValue: 254.982804476,
    });
  });
  it('one result has no threshold; none or a zero is refused', () => {
    expect(ask('water-statistics', { values: [12], unit })).toMatchObject({
      geometricMean: expect.closeTo(12, 9),
      statisticalThresholdValue: null,
    });
    expect(refusedAt('water-statistics', { values: [], unit })).toEqual(['/values']);
    expect(refusedAt('water-statistics', { values: [5, 0], unit })).toEqual(['/values/1']);
  });
  it('never below the smallest nor above the largest result, and the same in any order', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 100_000 }), { minLength: 2, maxLength: 40 }), (values) => {
        const made = ask('water-statistics', { values, unit });
        const turned = ask('water-statistics', { values: [...values].reverse(), unit });
        if (!('geometricMean' in made) || !('geometricMean' in turned)) throw new Error('refused');
        expect(made.geometricMean).toBeGreaterThanOrEqual(Math.min(...values) * (1 - 1e-9));
        expect(made.geometricMean).toBeLessThanOrEqual(Math.max(...values) * (1 + 1e-9));
        expect(turned.geometricMean).toBeCloseTo(made.geometricMean, 4);
      }),
    );
  });
});

describe('compost mix', () => {
  it.each(compost.published)('$carbonToNitrogen to one: $source', ({ parts, carbonToNitrogen }) => {
    const made = ask('compost-mix', {
      parts: parts.map((p) => ({
        mass: q(p.pounds, '[lb_av]'),
        moisturePercent: 0,
        carbonPercent: p.carbonPercent,
        nitrogenPercent: p.nitrogenPercent,
      })),
    });
    expect(made).toMatchObject({ carbonToNitrogen: expect.closeTo(carbonToNitrogen, 1) });
  });
  it('weighs by nitrogen and dry matter, by the formula of the Cornell Waste Management Institute', () => {
    // 100 kg of clippings (80 % water, C 45, N 3) and 50 kg of leaves (20 % water, C 48, N 0.8):
    // carbon 9 + 19.2 = 28.2 kg, nitrogen 0.6 + 0.32 = 0.92 kg, ratio 30.65; water 80 + 10 = 90 of 150 kg, 60 %.
    const made = ask('compost-mix', {
      parts: [
        { mass: q(100, 'kg'), moisturePercent: 80, carbonPercent: 45, nitrogenPercent: 3 },
        { mass: q(50_000, 'g'), moisturePercent: 20, carbonPercent: 48, nitrogenPercent: 0.8 },
      ],
    });
    expect(made).toMatchObject({ carbonToNitrogen: expect.closeTo(28.2 / 0.92, 6), moisturePercent: 60 });
    // The average of the ratios 15 and 60, weighed by mass, would have said 30 and looked right by chance; of two
    // equal masses 37.5, which is wrong.
  });
  it('water adds moisture and leaves the ratio alone', () => {
    const clippings = { mass: q(100, 'kg'), moisturePercent: 50, carbonPercent: 45, nitrogenPercent: 3 };
    const water = { mass: q(100, 'kg'), moisturePercent: 100, carbonPercent: 0, nitrogenPercent: 0 };
    expect(ask('compost-mix', { parts: [clippings, water] })).toMatchObject({
      carbonToNitrogen: 15,
      moisturePercent: 75,
    });
  });
  it('refuses a mix of nothing, one without nitrogen, and more than all of it', () => {
    const part = { mass: q(1, 'kg'), moisturePercent: 50, carbonPercent: 45, nitrogenPercent: 0 };
    expect(refusedAt('compost-mix', { parts: [] })).toEqual(['/parts']);
    expect(refusedAt('compost-mix', { parts: [{ ...part, mass: q(0, 'kg') }] })).toEqual(['/parts']);
    expect(refusedAt('compost-mix', { parts: [part] })).toEqual(['/parts']);
    expect(refusedAt('compost-mix', { parts: [{ ...part, carbonPercent: 70, nitrogenPercent: 40 }] })).toEqual([
      '/parts/0',
    ]);
    expect(refusedAt('compost-mix', { parts: [{ ...part, moisturePercent: 101 }] })).toEqual([
      '/parts/0/moisturePercent',
    ]);
  });
  it('lies between its richest and its poorest part', () => {
    const part = fc.record({
      mass: fc.integer({ min: 1, max: 999 }).map((n) => q(n, 'kg')),
      moisturePercent: fc.integer({ min: 0, max: 95 }),
      carbonPercent: fc.integer({ min: 1, max: 60 }),
      nitrogenPercent: fc.integer({ min: 1, max: 10 }),
    });
    fc.assert(
      fc.property(fc.array(part, { minLength: 1, maxLength: 6 }), (parts) => {
        const made = ask('compost-mix', { parts });
        if (!('carbonToNitrogen' in made)) throw new Error('refused');
        const each = parts.map((p) => p.carbonPercent / p.nitrogenPercent);
        expect(made.carbonToNitrogen).toBeGreaterThanOrEqual(Math.min(...each) * (1 - 1e-6));
        expect(made.carbonToNitrogen).toBeLessThanOrEqual(Math.max(...each) * (1 + 1e-6));
      }),
    );
  });
});

describe('recipe scaling', () => {
  it('7 lb and half a scoop for 300 gal are 3.5 lb and a quarter scoop for 150 gal', () => {
    const made = ask('scale-recipe', {
      basisVolume: q(300, '[gal_us]'),
      ingredients: [
        { name: 'worm compost', amount: q(7, '[lb_av]') },
        { name: 'kelp', amount: { ...q(0.5, '{measure}'), measureId: 'scoop' } },
      ],
      volume: q(150, '[gal_us]'),
    });
    expect(made).toMatchObject({
      ingredients: [
        { name: 'worm compost', amount: q(3.5, '[lb_av]') },
        { name: 'kelp', amount: { ...q(0.25, '{measure}'), measureId: 'scoop' } },
      ],
    });
  });
  it('to another unit of volume and back gives the recipe again', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 9999 }), fc.integer({ min: 1, max: 9999 }), (amount, gallons) => {
        const there = ask('scale-recipe', {
          basisVolume: q(100, 'L'),
          ingredients: [{ name: 'a', amount: q(amount, 'g') }],
          volume: q(gallons, '[gal_us]'),
        });
        if (!('ingredients' in there)) throw new Error('refused');
        const back = ask('scale-recipe', {
          basisVolume: q(gallons, '[gal_us]'),
          ingredients: there.ingredients,
          volume: q(100, 'L'),
        });
        expect(back).toMatchObject({ ingredients: [{ amount: { value: expect.closeTo(amount, 8) } }] });
      }),
    );
  });
  it('refuses a basis of nothing, a weight for a volume, an unknown unit', () => {
    const recipe = { basisVolume: q(300, 'L'), ingredients: [{ name: 'a', amount: q(1, 'kg') }], volume: q(150, 'L') };
    expect(refusedAt('scale-recipe', { ...recipe, basisVolume: q(0, 'L') })).toEqual(['/basisVolume/value']);
    expect(refusedAt('scale-recipe', { ...recipe, volume: q(1, 'kg') })).toEqual(['/volume/unit']);
    expect(refusedAt('scale-recipe', { ...recipe, ingredients: [{ name: 'a', amount: q(1, 'lb') }] })).toEqual([
      '/ingredients/0/amount/unit',
    ]);
  });
});

describe('how much a question may hold', () => {
  const many = <T>(n: number, one: T): T[] => Array.from({ length: n }, () => one);
  it('a recipe has at most 1000 ingredients', () => {
    const scaled = (n: number) => {
      const ingredients = many(n, { name: 'a', amount: q(1, 'kg') });
      return refusedAt('scale-recipe', { basisVolume: q(1, 'L'), ingredients, volume: q(2, 'L') });
    };
    expect([scaled(1000), scaled(1001)]).toEqual([[], ['/ingredients']]);
  });
  it('water has at most 10,000 results', () => {
    const judged = (n: number) => refusedAt('water-statistics', { values: many(n, 5), unit: '{CFU}/(100.mL)' });
    expect([judged(10_000), judged(10_001)]).toEqual([[], ['/values']]);
  });
  it('a plan has at most 1000 targets and 100 vessels', () => {
    const vessel = '01980000-0000-7000-8000-000000000001';
    const read = (targets: number, vessels: number) =>
      planRequest().safeParse({
        spray: { from: '2026-06-03T06:10:00-05:00', to: '2026-06-03T10:10:00-05:00' },
        targets: many(targets, { area: q(1, '[acr_us]'), rate: q(20, '[gal_us]/[acr_us]') }),
        vessels: many(vessels, vessel),
      }).success;
    expect([read(1, 1), read(1000, 100), read(1001, 1), read(0, 1), read(1, 101), read(1, 0)]).toEqual([
      ...[true, true, false, false, false, false],
    ]);
  });
});

describe('conversion', () => {
  it('250 gal are 946.352946 L (231 in³ each)', () => {
    expect(ask('convert', { quantity: q(250, '[gal_us]'), to: 'L' })).toMatchObject({ quantity: q(946.352946, 'L') });
  });
  it.each([
    [68, '[degF]', 20, 'Cel'],
    [20, 'Cel', 68, '[degF]'],
    [-40, 'Cel', -40, '[degF]'],
    [0, 'Cel', 273.15, 'K'],
    [-459.67, '[degF]', 0, 'K'],
    [0, 'K', -273.15, 'Cel'],
    [0.5, 'K', -272.65, 'Cel'],
  ])('%d %s is %d %s (the scales meet at −40; 0 °C is 273.15 K, 0 K is −459.67 °F by their definition)', (...row) => {
    const [value, from, is, to] = row;
    expect(ask('convert', { quantity: q(value, from), to })).toMatchObject({ quantity: { value: is, unit: to } });
  });
  it('absolute zero is the coldest there is, on any scale and also where the scale stays the same', () => {
    for (const [value, unit] of [
      [-459.68, '[degF]'],
      [-273.16, 'Cel'],
      [-0.01, 'K'],
    ] as const) {
      for (const to of ['[degF]', 'Cel', 'K']) {
        expect([unit, to, refusedAt('convert', { quantity: q(value, unit), to })]).toEqual([
          ...[unit, to, ['/quantity/value']],
        ]);
      }
    }
  });
  it('a result keeps its “less than”, and a range both of its ends', () => {
    expect(ask('convert', { quantity: { ...q(2, 'mg/L'), qualifier: '<' }, to: 'ug/L' })).toMatchObject({
      quantity: { value: 2000, unit: 'ug/L', qualifier: '<' },
    });
    expect(
      ask('convert', { quantity: { ...q(50, '[degF]'), qualifier: 'between', high: 68 }, to: 'Cel' }),
    ).toMatchObject({ quantity: { value: 10, unit: 'Cel', qualifier: 'between', high: 20 } });
  });
  it('a household measure is not called unknown: its weight or volume is asked for', () => {
    const words = { refused: { detail: expect.stringMatching(/^A household measure .* give its weight or volume/) } };
    expect(ask('convert', { quantity: q(2, '{measure}'), to: 'L' })).toMatchObject(words);
    expect(ask('convert', { quantity: q(2, 'L'), to: '{measure}' })).toMatchObject(words);
  });
  it('refuses what does not convert, what is unknown, and what is colder than cold', () => {
    expect(refusedAt('convert', { quantity: q(1, 'L'), to: 'kg' })).toEqual(['/to']);
    expect(refusedAt('convert', { quantity: q(1, 'gal'), to: 'L' })).toEqual(['/quantity/unit']);
    expect(refusedAt('convert', { quantity: q(-460, '[degF]'), to: 'Cel' })).toEqual(['/quantity/value']);
    expect(refusedAt('convert', { quantity: q(1e13, 'L'), to: 'mL' })).toEqual(['/quantity/value']);
  });
});

describe('every calculation', () => {
  const names = Object.keys(calculations).filter(isCalculation);
  it('is listed under its own name, with its source, and describes its question', () => {
    expect(names).toHaveLength(9);
    for (const name of names) {
      expect(calculations[name].name).toBe(name);
      expect(calculations[name].source.length).toBeGreaterThan(10);
      expect(z.toJSONSchema(calculations[name].input(), { io: 'input' })).toHaveProperty('type', 'object');
    }
    for (const odd of ['__proto__', 'constructor', 'toString', '']) expect(isCalculation(odd)).toBe(false);
  });
  it('answers any nonsense with a refusal, never with a throw or a figure that is none', () => {
    fc.assert(
      fc.property(fc.constantFrom(...names), fc.jsonValue(), (name, nonsense) => {
        expect(isRefusal(ask(name, nonsense))).toBe(true);
      }),
    );
    for (const name of names) expect(isRefusal(ask(name, undefined))).toBe(true);
  });
  it('speaks to whoever asks: what is missing, and where', () => {
    expect(ask('convert', { quantity: q(1, 'L') })).toEqual({
      refused: { detail: 'to: is missing.', errors: [{ pointer: '/to', detail: 'is missing' }] },
    });
    expect(ask('convert', { quantity: { value: '1', unit: 'L' }, to: 'mL' })).toMatchObject({
      refused: { errors: [{ pointer: '/quantity/value', detail: 'must be a number' }] },
    });
    const dose = { volume: q(1, 'L'), chlorine: q(1, 'mg/L'), neutralizer: 'vinegar' };
    expect(ask('neutralizer-dose', dose)).toMatchObject({
      refused: {
        errors: [{ pointer: '/neutralizer', detail: expect.stringMatching(/^must be one of ascorbicAcid, /) }],
      },
    });
    // Where the question itself says what must stand there, that is told.
    expect(ask('field-area', { boundary: { type: 'Point', coordinates: [[]] } })).toMatchObject({
      refused: { errors: [{ pointer: '/boundary/type', detail: 'must be “Polygon”' }] },
    });
  });
});
