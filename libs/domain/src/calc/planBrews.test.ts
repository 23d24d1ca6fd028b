import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { instantOf } from '../calendar/index.ts';
import { decimal } from '../quantity/index.ts';
import { planBrews, type BrewPlan } from './planBrews.ts';
import type { PlanFacts } from './planFacts.ts';
import { planRequest } from './planRequest.ts';

const hour = 3_600_000;
const gal = (value: number) => ({ value, unit: '[gal_us]' });

/** 10 acres at 25 gal/acre: 250 gal, one tote of 300 gal, spraying 06:00–12:00, municipal water with chlorine. */
const facts: PlanFacts = {
  spray: { from: instantOf('2026-06-03T06:00:00-05:00'), to: instantOf('2026-06-03T12:00:00-05:00') },
  timeZone: 'America/Chicago',
  now: null,
  targets: [
    {
      fieldId: 'north',
      code: 'North 4',
      area: { value: 6, unit: '[acr_us]' },
      rate: { value: 25, unit: '[gal_us]/[acr_us]' },
    },
    {
      fieldId: 'south',
      code: 'South 1',
      area: { value: 4, unit: '[acr_us]' },
      rate: { value: 25, unit: '[gal_us]/[acr_us]' },
    },
  ],
  vessels: [{ vesselId: 'tote2', code: 'Tote 2', workingVolume: gal(300), freeFrom: null }],
  recipe: {
    code: 'House tea',
    basisVolume: gal(300),
    ingredients: [
      { materialId: 'worm', name: 'worm compost', amount: { value: 6, unit: '[lb_av]' } },
      { materialId: 'kelp', name: 'kelp meal', amount: { value: 0.5, unit: '{measure}', measureId: 'scoop' } },
    ],
    brewHours: 24,
  },
  disinfectant: 'chlorine',
  limits: {
    preAerationMinutes: 20,
    brewHours: 24,
    brewLeastHours: 20,
    brewMostHours: 48,
    holdAdvisedHours: 6,
    holdMostHours: 8,
  },
  sprayer: { tank: gal(100), perHour: { value: 60, unit: '[gal_us]/h' } },
  cleaningMinutes: 60,
  fillMinutes: 40,
  lots: [
    {
      lotId: 'w1',
      materialId: 'worm',
      code: 'WC-1',
      balance: decimal(3),
      unit: '[lb_av]',
      expiresOn: '2026-07-01',
      receivedAt: 1,
      unusable: null,
    },
    {
      lotId: 'w2',
      materialId: 'worm',
      code: 'WC-2',
      balance: decimal(50),
      unit: '[lb_av]',
      expiresOn: null,
      receivedAt: 0,
      unusable: null,
    },
    {
      lotId: 'k1',
      materialId: 'kelp',
      code: 'K-1',
      balance: decimal(40),
      unit: '[oz_av]',
      expiresOn: null,
      receivedAt: 0,
      unusable: null,
    },
  ],
  measures: (id) => (id === 'scoop' ? { equals: { value: 1.2, unit: '[lb_av]' } } : undefined),
};

function plan(changes: Partial<PlanFacts> = {}): BrewPlan {
  const made = planBrews({ ...facts, ...changes });
  if ('refused' in made) throw new Error(made.refused.detail);
  return made;
}

describe('a brew planned back from the spray window', () => {
  const [batch] = plan().batches;

  it('fills the day before: 24 h of brewing and 20 min of air before the window', () => {
    expect(batch).toMatchObject({
      vesselId: 'tote2',
      volume: { value: 250, unit: '[gal_us]' },
      fillFrom: '2026-06-02T05:00:00-05:00',
      fillBy: '2026-06-02T05:40:00-05:00',
      airOnAt: '2026-06-02T05:40:00-05:00',
      ingredientsAt: '2026-06-02T06:00:00-05:00',
      airOffAt: '2026-06-03T06:00:00-05:00',
      applyFrom: '2026-06-03T06:00:00-05:00',
    });
  });
  it('sprays 250 gal at 60 gal/h in 4 h 10 min, in three loads of 100 gal', () => {
    expect(batch?.applyBy).toBe('2026-06-03T10:10:00-05:00');
    expect(batch?.loads).toBe(3);
    expect(batch?.fields).toEqual([
      { fieldId: 'north', volume: gal(150), loads: 2 },
      { fieldId: 'south', volume: gal(100), loads: 1 },
    ]);
  });
  it('scales the recipe to 250 of 300 gal and takes the lot that expires first', () => {
    expect(batch?.ingredients).toEqual([
      {
        materialId: 'worm',
        quantity: { value: 5, unit: '[lb_av]' },
        lots: [
          { lotId: 'w1', quantity: { value: 3, unit: '[lb_av]' } },
          { lotId: 'w2', quantity: { value: 2, unit: '[lb_av]' } },
        ],
      },
      {
        materialId: 'kelp',
        quantity: { value: 0.416666666666667, unit: '{measure}', measureId: 'scoop' },
        // 0.5 scoop × 1.2 lb × 250/300 = 0.5 lb = 8 oz
        lots: [{ lotId: 'k1', quantity: { value: 8, unit: '[oz_av]' } }],
      },
    ]);
  });
  it('has nothing to warn about', () => {
    expect(plan().warnings).toEqual([]);
    expect(plan().total).toEqual({ needed: gal(250), planned: gal(250), short: gal(0), loads: 3 });
  });
  it('water that was not disinfected needs no air before the ingredients', () => {
    const [clean] = plan({ disinfectant: 'none' }).batches;
    expect(clean?.ingredientsAt).toBe(clean?.airOnAt);
  });
});

describe('a corner of a field', () => {
  it('that takes less than a litre is in the plan with its share', () => {
    const corner = { fieldId: 'corner', code: 'Corner', area: { value: 0.01, unit: '[acr_us]' } };
    const made = plan({ targets: [...facts.targets, { ...corner, rate: { value: 25, unit: '[gal_us]/[acr_us]' } }] });
    expect(made.batches.flatMap(({ fields }) => fields)).toContainEqual(
      expect.objectContaining({ fieldId: 'corner', volume: { value: 0.25, unit: '[gal_us]' } }),
    );
  });
});

describe('a seed soak of half a litre', () => {
  const soak = {
    fieldId: null,
    code: 'Tray bench',
    area: { value: 1, unit: 'm2' },
    rate: { value: 0.5, unit: 'L/m2' },
  };
  it('is brewed in a jar that holds no more', () => {
    const jar = { vesselId: 'jar', code: 'Jar', workingVolume: { value: 0.5, unit: 'L' }, freeFrom: null };
    const made = plan({ targets: [soak], vessels: [jar] });
    expect(made.batches.map((b) => [b.vesselId, b.volume])).toEqual([['jar', { value: 0.5, unit: 'L' }]]);
    expect(made.warnings).toEqual([]);
  });
  it('is brewed as far as the watering can of 1 L/h gets through it in a window of 15 min', () => {
    const made = plan({
      targets: [soak],
      spray: { from: facts.spray.from, to: facts.spray.from + hour / 4 },
      sprayer: { tank: null, perHour: { value: 1, unit: 'L/h' } },
      vessels: [{ vesselId: 'bucket', code: 'Bucket', workingVolume: { value: 10, unit: 'L' }, freeFrom: null }],
    });
    expect(made.total).toMatchObject({ planned: { value: 0.25, unit: 'L' }, short: { value: 0.25, unit: 'L' } });
  });
});

describe('several vessels and turns', () => {
  const small = { vesselId: 'drum', code: 'Drum', workingVolume: gal(50), freeFrom: null };
  it('takes the smallest vessel that holds everything', () => {
    const made = plan({
      vessels: [...facts.vessels, small],
      targets: [{ ...first(), area: { value: 2, unit: '[acr_us]' } }],
    });
    expect(made.batches.map((b) => [b.vesselId, b.volume.value])).toEqual([['drum', 50]]);
  });
  it('of vessels too small for everything the largest goes first', () => {
    const made = plan({ vessels: [small, { ...small, vesselId: 'a', workingVolume: gal(220) }] });
    expect(made.batches.map((b) => [b.vesselId, b.volume.value])).toEqual([
      ['a', 220],
      ['drum', 30],
    ]);
  });
  it('a second batch picks from what the first one left', () => {
    const made = plan({
      vessels: [
        { ...small, vesselId: 'a', workingVolume: gal(150) },
        { ...small, workingVolume: gal(100) },
      ],
    });
    // 3 lb of worm compost for 150 gal use up the first lot; the 2 lb for 100 gal come from the second.
    expect(made.batches.map((b) => b.ingredients[0]?.lots)).toEqual([
      [{ lotId: 'w1', quantity: { value: 3, unit: '[lb_av]' } }],
      [{ lotId: 'w2', quantity: { value: 2, unit: '[lb_av]' } }],
    ]);
  });
  it('five hectares written as acres ask for no further load by a rounding', () => {
    // 5 ha × 378.5411784 L/ha = 1,892.705892 L = 500 gal. The acres of 5 ha have no last digit, so the product is a
    // little more than that in the fiftieth.
    const area = { value: decimal(10_000).div('4046.8564224').times(5), unit: '43560.[sft_i]' };
    const made = plan({
      targets: [{ ...first(), area, rate: { value: 378.5411784, unit: 'L/har' } }],
      vessels: [{ ...small, workingVolume: gal(600) }],
      sprayer: { tank: gal(500), perHour: { value: 500, unit: '[gal_us]/h' } },
    });
    expect([made.total.needed, made.total.loads]).toEqual([gal(500), 1]);
  });
  it('brews the second vessel later, so that it is ready when the sprayer gets to it', () => {
    const made = plan({ vessels: [{ ...small, vesselId: 'a', workingVolume: gal(200) }, small] });
    expect(made.batches.map((b) => [b.vesselId, b.volume.value, b.applyFrom])).toEqual([
      ['a', 200, '2026-06-03T06:00:00-05:00'],
      ['drum', 50, '2026-06-03T09:20:00-05:00'],
    ]);
    expect(made.batches[1]?.ingredientsAt).toBe('2026-06-02T09:20:00-05:00');
  });
  it('one vessel, a window of three days: the second turn waits for emptying, cleaning, filling and brewing', () => {
    const made = plan({
      vessels: [{ ...small, workingVolume: gal(125) }],
      spray: { from: facts.spray.from, to: facts.spray.from + 72 * hour },
    });
    // 125 gal at 60 gal/h: 2 h 5 min. Empty 08:05, clean 09:05, full 09:45, ingredients 10:05, ready next day 10:05.
    expect(made.batches.map((b) => [b.fillBy, b.applyFrom, b.applyBy])).toEqual([
      ['2026-06-02T05:40:00-05:00', '2026-06-03T06:00:00-05:00', '2026-06-03T08:05:00-05:00'],
      ['2026-06-03T09:45:00-05:00', '2026-06-04T10:05:00-05:00', '2026-06-04T12:10:00-05:00'],
    ]);
  });
});

describe('what does not fit is said, with what would make it fit', () => {
  it('a vessel too small for the day', () => {
    const made = plan({ vessels: [{ vesselId: 'drum', code: 'Drum', workingVolume: gal(100), freeFrom: null }] });
    expect(made.total.short).toEqual(gal(150));
    // 06:00–07:40; clean 08:40, full 09:20, fed 09:40, so 09:40–11:20 on the 4th; clean 12:20, full 13:00, fed 13:20,
    // so from 13:20 on the 5th the last 50 gal in 50 min.
    expect(made.warnings[0]).toBe(
      '150 gal of 250 gal cannot be brewed and sprayed by 2026-06-03 12:00 CDT (UTC-05:00). It would fit if spraying could go on until 2026-06-05 14:10 CDT (UTC-05:00), or with a further vessel of 150 gal working volume, or at 40 % of the rate.',
    );
  });
  it('a sprayer too slow for the window', () => {
    const made = plan({ sprayer: { tank: gal(100), perHour: { value: 30, unit: '[gal_us]/h' } } });
    expect(made.warnings[0]).toContain('The sprayer puts out at most 180 gal in this window.');
    expect(made.warnings[0]).not.toContain('further vessel');
    expect(made.total.planned).toEqual(gal(180));
  });
  it('too late to begin: what can still be ready', () => {
    const made = plan({ now: instantOf('2026-06-02T10:00:00-05:00') });
    // 10:00 + 40 min + 20 min + 24 h = 11:00 the next day; an hour is left for 60 gal.
    expect(made.batches[0]).toMatchObject({
      fillFrom: '2026-06-02T10:00:00-05:00',
      applyFrom: '2026-06-03T11:00:00-05:00',
      volume: gal(60),
    });
    expect(made.total.short).toEqual(gal(190));
  });
  it('stock that does not suffice, naming the lot on hold', () => {
    const made = plan({
      lots: facts.lots.map((lot) => (lot.lotId === 'w2' ? { ...lot, unusable: 'is on hold' } : lot)),
    });
    expect(made.warnings).toEqual([
      'worm compost for Tote 2 on 2026-06-02: 2 [lb_av] of 5 [lb_av] is not in stock. Lot WC-2 is on hold.',
    ]);
  });
  it('stock that lacks half a pound', () => {
    const lots = facts.lots.map((lot) => (lot.lotId === 'w2' ? { ...lot, balance: decimal(1.5) } : lot));
    expect(plan({ lots }).warnings).toEqual([
      'worm compost for Tote 2 on 2026-06-02: 0.5 [lb_av] of 5 [lb_av] is not in stock.',
    ]);
  });
  it('spraying that needs more than the advised hold, within the limit', () => {
    const made = plan({
      spray: { from: facts.spray.from, to: facts.spray.from + 9 * hour },
      sprayer: { tank: gal(100), perHour: { value: 35, unit: '[gal_us]/h' } },
    });
    // 250 gal at 35 gal/h take 7 h 9 min: more than 6 h, less than 8 h.
    expect(made.total.short).toEqual(gal(0));
    expect(made.warnings.join(' ')).toContain('longer than the 6 h advised');
  });
  it('chloramine is not answered by air', () => {
    expect(plan({ disinfectant: 'chloramine' }).warnings.join(' ')).toContain('Air alone does not answer chloramine');
  });
  it('a window at dawn means night work the day before, and says so', () => {
    const made = plan({ spray: { from: instantOf('2026-06-03T04:30:00-05:00'), to: facts.spray.to } });
    expect(made.warnings.join(' ')).toContain('Night work at Tote 2: fill 2026-06-02 03:30 CDT (UTC-05:00)');
  });
  it('a clock change on the way does not shorten the brew', () => {
    const made = plan({
      spray: { from: instantOf('2026-11-01T07:00:00-06:00'), to: instantOf('2026-11-01T13:00:00-06:00') },
    });
    expect(made.batches[0]?.ingredientsAt).toBe('2026-10-31T08:00:00-05:00');
    expect(made.warnings.join(' ')).toContain('The clocks change while Tote 2 brews');
  });
  it('what was taken for granted is said', () => {
    const words = plan({ recipe: null, sprayer: { tank: null, perHour: null }, disinfectant: 'unknown' }).warnings.join(
      ' ',
    );
    for (const part of ['not known: 20 min', 'No recipe', 'in an hour is not known', 'loads are not counted']) {
      expect(words).toContain(part);
    }
  });
  it('impossible questions are refused', () => {
    expect(planBrews({ ...facts, spray: { from: 2, to: 1 } })).toMatchObject({
      refused: { errors: [{ pointer: '/spray/to' }] },
    });
    expect(planBrews({ ...facts, targets: [] })).toMatchObject({ refused: { errors: [{ pointer: '/targets' }] } });
  });
});

describe('what a plan says, on both sides of where it begins to say it', () => {
  const said = (changes: Partial<PlanFacts>) => plan(changes).warnings.join(' ');
  it('night work from 22:00 to 05:00 by the farm’s clock', () => {
    // Fill 40 min, air 20 min, 24 h of brewing: the fill begins 25 h before the window, the food goes in 24 h before.
    const from = (time: string) =>
      said({ spray: { from: instantOf(`2026-06-03T${time}:00-05:00`), to: instantOf('2026-06-04T09:00:00-05:00') } });
    expect(from('06:00')).not.toContain('Night work');
    expect(from('05:59')).toContain('Night work at Tote 2: fill 2026-06-02 04:59 CDT (UTC-05:00).');
    expect(from('05:00')).not.toContain('ingredients');
    expect(from('04:59')).toContain('ingredients 2026-06-02 04:59');
    expect(from('21:59')).not.toContain('Night work');
    expect(from('22:00')).toContain('Night work at Tote 2: ingredients 2026-06-02 22:00');
  });
  it('a brew shorter or longer than the limits, not one at them', () => {
    const brewed = (brewHours: number) =>
      said({ recipe: { code: 'R', basisVolume: gal(300), ingredients: [], brewHours } });
    expect(brewed(20)).not.toContain('shorter');
    expect(brewed(19.5)).toContain('A brew of 19.5 h is shorter than your limit of 20 h.');
    expect(brewed(48)).not.toContain('longer');
    expect(brewed(48.5)).toContain('A brew of 48.5 h is longer than your limit of 48 h.');
  });
  it('volumes as the farm writes them; in litres where the unit has no short name', () => {
    const short = (unit: string, value: number) =>
      said({ vessels: [{ vesselId: 'v', code: 'V', workingVolume: { value, unit }, freeFrom: null }] });
    // 250 gal are 946.35 L, 208.17 imperial gal, 1,000 qt, 33.42 cubic feet; of half of it as much is missing.
    expect(short('L', 473.176473)).toContain('473.2 L of 946.4 L cannot be');
    expect(short('[gal_br]', 104.0842)).toContain('of 208.2 imperial gal cannot be');
    expect(short('m3', 0.473176473)).toContain('0.4732 m³ of 0.9464 m³ cannot be');
    expect(short('[qt_us]', 500)).toContain('500 qt of 1000 qt cannot be');
    expect(short('[cft_i]', 16.71)).toContain('of 946.4 L cannot be');
  });
  it('a vessel without a working volume is left out, and named; an empty one too', () => {
    const made = plan({
      vessels: [{ vesselId: 'old', code: 'Old tank', workingVolume: null, freeFrom: null }, ...facts.vessels],
    });
    expect(made.batches.map((b) => b.vesselId)).toEqual(['tote2']);
    expect(made.warnings).toEqual(['Old tank has no working volume registered, so it is left out.']);
    const none = plan({ vessels: [{ vesselId: 'old', code: 'Old tank', workingVolume: gal(0), freeFrom: null }] });
    expect(none.batches).toEqual([]);
    expect(none.total.short.value).toBeCloseTo(250, 9);
    expect(none.warnings.join(' ')).not.toContain('% of the rate');
  });
  it('a scoop nobody weighed: the amount stands, no lot is picked, and it is said', () => {
    const made = plan({ measures: () => undefined });
    expect(made.batches[0]?.ingredients[1]).toMatchObject({ quantity: { unit: '{measure}' }, lots: [] });
    expect(made.warnings).toEqual(['kelp meal: the household measure is not registered, so no lot is picked.']);
  });
  it('a window of a minute takes a minute of spraying, a shorter one nothing', () => {
    const window = (minutes: number) =>
      plan({ spray: { from: facts.spray.from, to: facts.spray.from + minutes * 60_000 } });
    expect(window(1).total.planned.value).toBeCloseTo(1, 9);
    expect(window(0.9).batches).toEqual([]);
  });
  it('a vessel that takes forty pails of a size that nobody wrote down is left out, and named', () => {
    const pails = { vesselId: 'v9', code: 'Pail vat', workingVolume: { value: 40, unit: '{measure}' }, freeFrom: null };
    const made = plan({ vessels: [...facts.vessels, pails] });
    expect(made.batches.map(({ vesselId }) => vesselId)).not.toContain('v9');
    expect(made.warnings).toEqual([
      'Pail vat has its working volume in a household measure that is not registered, so it is left out.',
    ]);
  });
  it('a recipe for no volume gives no amounts, and says so', () => {
    const recipe = facts.recipe && { ...facts.recipe, basisVolume: gal(0) };
    const made = plan({ recipe });
    expect(made.batches.map((b) => b.ingredients)).toEqual([[]]);
    expect(made.warnings).toContain(
      'Recipe House tea: the volume that it is for is nothing, or a household measure that is not registered, so no ingredients are planned.',
    );
  });
  it('a sprayer that puts out nothing sprays nothing: no batch, all of it short', () => {
    const made = plan({ sprayer: { tank: gal(100), perHour: { value: 0, unit: '[gal_us]/h' } } });
    expect(made.batches).toEqual([]);
    expect(made.total.short.value).toBeCloseTo(250, 9);
    expect(made.warnings[0]).toContain('The sprayer puts out at most 0 gal in this window.');
  });
  it('a sprayer without an output: batches side by side, each within its hold', () => {
    const made = plan({
      sprayer: { tank: gal(100), perHour: null },
      vessels: [
        { vesselId: 'a', code: 'A', workingVolume: gal(125), freeFrom: null },
        { vesselId: 'b', code: 'B', workingVolume: gal(125), freeFrom: null },
      ],
    });
    expect(made.batches.map((b) => [b.applyFrom, b.applyBy])).toEqual([
      ['2026-06-03T06:00:00-05:00', '2026-06-03T12:00:00-05:00'],
      ['2026-06-03T06:00:00-05:00', '2026-06-03T12:00:00-05:00'],
    ]);
  });
  it('an area and a rate that do not go together, or come to nothing, are refused', () => {
    const refusedAt = (target: Partial<PlanFacts['targets'][number]>) =>
      planBrews({ ...facts, targets: [{ ...first(), ...target }] });
    expect(refusedAt({ rate: { value: 25, unit: '[gal_us]' } })).toMatchObject({
      refused: { errors: [{ pointer: '/targets' }] },
    });
    expect(refusedAt({ area: { value: 0, unit: '[acr_us]' } })).toMatchObject({
      refused: { errors: [{ pointer: '/targets' }] },
    });
    expect(planBrews({ ...facts, spray: { from: 1, to: 1 } })).toMatchObject({
      refused: { errors: [{ pointer: '/spray/to' }] },
    });
  });
});

describe('laws of a plan', () => {
  const vessel = fc.record({
    gallons: fc.integer({ min: 5, max: 8000 }),
    free: fc.option(fc.integer({ min: -72, max: 24 })),
  });
  const asked = fc.record({
    vessels: fc.array(vessel, { minLength: 1, maxLength: 4 }),
    acres: fc.array(fc.integer({ min: 1, max: 60 }), { minLength: 1, maxLength: 4 }),
    windowHours: fc.integer({ min: 1, max: 96 }),
    perHour: fc.option(fc.integer({ min: 20, max: 2000 })),
    now: fc.option(fc.integer({ min: -60, max: 10 })),
    disinfectant: fc.constantFrom('none' as const, 'chlorine' as const, 'chloramine' as const, 'unknown' as const),
    brewHours: fc.constantFrom(20, 24, 36),
  });

  it('keeps every limit: order, brew, hold, window, capacity, one batch in a vessel and one on the sprayer', () => {
    fc.assert(
      fc.property(asked, (a) => {
        const from = facts.spray.from;
        const given: PlanFacts = {
          ...facts,
          spray: { from, to: from + a.windowHours * hour },
          now: a.now === null ? null : from + a.now * hour,
          disinfectant: a.disinfectant,
          vessels: a.vessels.map((v, i) => ({
            vesselId: String(i),
            code: `V${i}`,
            workingVolume: gal(v.gallons),
            freeFrom: v.free === null ? null : from + v.free * hour,
          })),
          targets: a.acres.map((acres, i) => ({
            ...first(),
            fieldId: String(i),
            area: { value: acres, unit: '[acr_us]' },
          })),
          recipe: facts.recipe === null ? null : { ...facts.recipe, brewHours: a.brewHours },
          sprayer: { tank: gal(100), perHour: a.perHour === null ? null : { value: a.perHour, unit: '[gal_us]/h' } },
        };
        const made = planBrews(given);
        if ('refused' in made) throw new Error(made.refused.detail);
        const need = 25 * a.acres.reduce((x, y) => x + y, 0);
        expect(made.total.planned.value + made.total.short.value).toBeCloseTo(need, 6);
        expect(made.batches.reduce((sum, b) => sum + b.volume.value, 0)).toBeCloseTo(made.total.planned.value, 6);
        const times = made.batches.map((b) => ({
          b,
          fillFrom: instantOf(b.fillFrom),
          airOn: instantOf(b.airOnAt),
          add: instantOf(b.ingredientsAt),
          off: instantOf(b.airOffAt),
          from: instantOf(b.applyFrom),
          by: instantOf(b.applyBy),
        }));
        for (const t of times) {
          const v = given.vessels[Number(t.b.vesselId)];
          expect(t.b.volume.value).toBeLessThanOrEqual((a.vessels[Number(t.b.vesselId)]?.gallons ?? 0) + 1e-9);
          expect(t.fillFrom).toBeGreaterThanOrEqual(Math.max(v?.freeFrom ?? -Infinity, given.now ?? -Infinity));
          expect(t.add - t.airOn).toBe(a.disinfectant === 'none' ? 0 : 20 * 60_000);
          expect(t.off - t.add).toBe(a.brewHours * hour);
          expect(t.from).toBeGreaterThanOrEqual(Math.max(t.off, given.spray.from));
          expect(t.by).toBeLessThanOrEqual(Math.min(given.spray.to, t.off + 8 * hour));
          if (a.perHour !== null)
            expect(((t.by - t.from) / hour) * a.perHour).toBeGreaterThanOrEqual(t.b.volume.value - 1e-6);
          for (const u of times) {
            if (u === t) continue;
            if (u.b.vesselId === t.b.vesselId) {
              expect(u.fillFrom >= t.by + 60 * 60_000 || t.fillFrom >= u.by + 60 * 60_000).toBe(true);
            }
            if (a.perHour !== null) expect(u.from >= t.by || t.from >= u.by).toBe(true);
          }
        }
        const fields = new Map<string | null, number>();
        for (const f of made.batches.flatMap((b) => b.fields))
          fields.set(f.fieldId, (fields.get(f.fieldId) ?? 0) + f.volume.value);
        a.acres.forEach((acres, i) => {
          expect(fields.get(String(i)) ?? 0).toBeLessThanOrEqual(acres * 25 + 1e-6);
        });
        expect(made.total.short.value > 0).toBe(made.warnings.some((w) => w.includes('cannot be brewed and sprayed')));
        // At the lower rate that it names everything fits.
        const percent = /at (\d+) % of the rate/.exec(made.warnings.join(' '))?.[1];
        if (percent === undefined) return;
        const lower = (t: PlanFacts['targets'][number]) => ({
          ...t,
          rate: { ...t.rate, value: decimal(t.rate.value).times(percent).div(100) },
        });
        expect(planBrews({ ...given, targets: given.targets.map(lower) })).toMatchObject({
          total: { short: { value: expect.closeTo(0, 6) } },
        });
      }),
      { numRuns: 300 },
    );
  });
});

describe('the question as it comes in', () => {
  const id = (n: number) => `01976f00-0000-7000-8000-00000000000${n}`;
  const spray = { from: '2026-06-03T06:00:00-05:00', to: '2026-06-03T12:00:00-05:00' };
  const rate = { value: 25, unit: '[gal_us]/[acr_us]' };
  it('takes fields or a plain area, and always reads a list', () => {
    const read = planRequest().parse({ spray, vessels: [id(1)], targets: { area: { value: 3, unit: 'har' }, rate } });
    expect(read.targets).toHaveLength(1);
    expect(read.spray.from).toBe(instantOf(spray.from));
    const two = [
      { fieldId: id(2), rate },
      { fieldId: id(3), rate },
    ];
    expect(planRequest().parse({ spray, vessels: [id(1)], targets: two }).targets).toEqual(two);
  });
  it('refuses a rate that is no volume on an area', () => {
    const wrong = { spray, vessels: [id(1)], targets: [{ fieldId: id(2), rate: { value: 25, unit: '[gal_us]' } }] };
    expect(planRequest().safeParse(wrong).success).toBe(false);
  });
});

function first() {
  const [target] = facts.targets;
  if (target === undefined) throw new Error('no target');
  return target;
}
