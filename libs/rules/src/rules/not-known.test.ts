import type { Quantity } from '@furrowmark/domain';
import { describe, expect, it } from '@jest/globals';
import { acres, fahrenheit, gal, id, instant, lb, ordinary, type SeasonBuilder } from '../testing/season.ts';
import { outcomeOf } from '../testing/verdicts.ts';

describe('an account of a tank that is still open', () => {
  it('waits for the closing, unless more was taken out than was ever in', () => {
    const drawn = (volume: number) => {
      const season = ordinary();
      season
        .batch('T-14')
        .filled('06-02 05:00', gal(200))
        .fed('06-02 06:00', 'C-1')
        .applied('A-1', '06-03 07:00', '06-03 08:00', 'North 4', gal(volume));
      return outcomeOf(season.season(), 'volume-balance', 'T-14');
    };
    expect(drawn(150)).toMatchObject({ outcome: 'notApplicable' });
    // 10 % of 200 gal are let stand: 220 gal, not 221.
    expect(drawn(220).outcome).toBe('notApplicable');
    expect(drawn(221).outcome).toBe('broken');
  });
});

describe('a lot that was held only after it was used', () => {
  it('was not held then', () => {
    const season = ordinary();
    season.batch('T-14').filled('06-01 05:00').fed('06-01 08:00', 'M-1');
    const hold = season.add('lot.held', '06-01 08:01', { lotId: id('M-1'), reason: 'seal broken' });
    const outcome = outcomeOf(season.season(), 'input-not-held', 'M-1');
    expect(outcome).toMatchObject({ outcome: 'met' });
    expect(outcome.recordIds).not.toContain(hold);
    expect(outcome.message).toContain('was not held then');
  });
});

describe('what the record of an application leaves open', () => {
  const missing = (
    lots: readonly string[],
    targets: readonly object[] = [{ fieldId: id('North 4'), area: { value: 1, unit: '[acr_us]' } }],
  ) => {
    const season = ordinary();
    season.add('person.registered', '04-01 08:00', {
      personId: id('Ines'),
      personal: { name: 'Ines Harrow', address: '3 Mill Road' },
    });
    const batch = season.batch('T-14').filled('06-02 05:00');
    for (const lot of lots) batch.fed('06-02 06:00', lot);
    batch.applied('A-1', '06-03 07:00', '06-03 08:00', 'North 4', gal(100), {
      targets: targets.map((each) => ({ ...each })),
    });
    return outcomeOf(season.season(), 'record-complete', 'A-1');
  };
  it('nothing, where everything is there', () => {
    expect(missing(['C-1'])).toMatchObject({ outcome: 'met', basis: 'regulation' });
  });
  it('a lot that nobody recorded, what the batch was made of, the area, the field', () => {
    expect(missing(['C-1', 'nobody knows']).message).toContain('Not on record: a lot that went into the batch.');
    expect(missing([]).message).toContain('what the batch was made of');
    expect(missing(['C-1'], [{ fieldId: id('North 4') }]).message).toContain('the area treated, for the rate');
    expect(missing(['C-1'], [{ fieldId: id('nowhere'), area: { value: 1, unit: '[acr_us]' } }]).message).toContain(
      'which field it was',
    );
    expect(missing(['C-1'], [{ lotId: id('no such lot') }]).message).toContain('which lot was wetted');
  });
  it.each<[string, Quantity, boolean]>([
    ['a load in buckets that nobody weighed', { value: 20, unit: '{measure}', measureId: id('bucket') }, true],
    ['a load in gallons', gal(100), false],
  ])('how much it was: %s', (_, volume, asked) => {
    const season = ordinary();
    season.add('person.registered', '04-01 08:00', {
      ...{ personId: id('Ines'), personal: { name: 'Ines Harrow', address: '3 Mill Road' } },
    });
    season
      .batch('T-14')
      .filled('06-02 05:00')
      .fed('06-02 06:00', 'C-1')
      .applied('A-1', '06-03 07:00', '06-03 08:00', 'North 4', volume, {
        targets: [{ fieldId: id('North 4'), area: acres(1) }],
      });
    const { outcome, message, figures } = outcomeOf(season.season(), 'record-complete', 'A-1');
    expect(outcome).toBe(asked ? 'broken' : 'met');
    expect(message.includes('how much was applied')).toBe(asked);
    expect(figures).toEqual([{ name: 'missing', value: asked ? 1 : 0, limit: 0 }]);
  });
  it.each<[string, { readonly drawId: string } | { readonly batchId: string; readonly volume: Quantity }]>([
    ['a load that nobody wrote down', { drawId: id('load') }],
    ['a batch that nobody opened', { batchId: id('T-99'), volume: gal(100) }],
  ])('which batch it was: %s', (_, draw) => {
    const season = ordinary();
    season.add('application.made', '06-03 08:00', {
      ...{ applicationId: id('A-1'), code: 'A-1', targets: [{ fieldId: id('North 4'), area: acres(1) }] },
      draws: [draw],
      ...{ startedAt: '2026-06-03T07:00:00-05:00', finishedAt: '2026-06-03T08:00:00-05:00' },
      ...{ method: 'soilDrench', applicator: id('Ines') },
    });
    const { outcome, message } = outcomeOf(season.season(), 'record-complete', 'A-1');
    expect(outcome).toBe('broken');
    expect(message).toContain('which batch it was');
    expect(message).not.toContain('what the batch was made of');
  });
});

describe('worm compost, and piles that nobody turned or aired', () => {
  const made = (method: 'vermicompost' | 'passive', finished: string) => {
    const season = ordinary();
    season.material('manure', { kind: 'other', animalOrigin: 'yes' }).lot('Man-1', 'manure', lb(1000));
    season.material('own compost', { animalOrigin: 'yes' });
    season.add('pile.started', '2025-03-01 08:00', {
      ...{ pileId: id('P-1'), code: 'P-1', method, carbonToNitrogen: 30 },
      inputs: [{ lotId: id('Man-1'), quantity: lb(500) }],
    });
    season.add('pile.measured', '2025-03-02 08:00', { pileId: id('P-1'), temperatures: [{ value: fahrenheit(150) }] });
    season.add('pile.finished', `${finished} 08:00`, {
      ...{ pileId: id('P-1'), lotId: id('Own-1'), code: 'Own-1', materialId: id('own compost'), quantity: lb(400) },
    });
    return season.season();
  };
  it('are none of the processes that 21 CFR 112.54(b) names: each is called by its name', () => {
    const says = (method: 'vermicompost' | 'passive') =>
      outcomeOf(made(method, '2026-03-01'), 'compost-produce', 'P-1');
    expect(says('vermicompost')).toMatchObject({ outcome: 'unknown' });
    expect(says('vermicompost').message).toContain('Worm compost is none of the processes named');
    expect(says('passive').message).toContain('A pile that is neither turned nor aerated is none of');
  });
  // NOP 5021 (the days from memory): 60 days in a continuous flow reactor, 12 months in windrows outdoors.
  it.each([
    ['2025-04-29', 'broken', '59 days'],
    ['2025-04-30', 'caution', '60 days'],
    ['2026-02-28', 'caution', '364 days'],
    ['2026-03-01', 'met', '365 days'],
  ])('worm compost finished on %s: %s, %s', (finished, verdict) => {
    expect(outcomeOf(made('vermicompost', finished), 'compost-organic', 'P-1')).toMatchObject({
      outcome: verdict,
      basis: 'guideline',
      severity: 'minor',
    });
  });
  it('worm compost that still grows is due when its longest time is over', () => {
    const season = ordinary();
    season.material('manure', { kind: 'other', animalOrigin: 'yes' }).lot('Man-1', 'manure', lb(1000));
    season.add('pile.started', '2026-03-01 08:00', {
      ...{ pileId: id('P-1'), code: 'P-1', method: 'vermicompost' },
      inputs: [{ lotId: id('Man-1'), quantity: lb(500) }],
    });
    expect(outcomeOf(season.season(), 'compost-organic', 'P-1', { now: instant('06-01 08:00') })).toMatchObject({
      outcome: 'due',
      // Midnight in winter, six hours behind UTC.
      dueAt: Date.parse('2027-03-01T06:00:00Z'),
    });
  });
});

describe('seed for sprouts', () => {
  it('is named where untreated tea touched it, and only there', () => {
    const soaked = (ediblePart: 'seedForSprouts' | 'leaf') => {
      const season = ordinary().planting('crop', 'North 4', { ediblePart });
      season.material('yard compost', { animalOrigin: 'yes' }).lot('Y-1', 'yard compost');
      season
        .batch('T-14')
        .filled('06-02 05:00')
        .airOn('06-02 05:00')
        .fed('06-02 06:00', 'Y-1')
        .fed('06-02 06:00', 'M-1')
        .applied('A-1', '06-03 07:00', '06-03 08:00', 'North 4', gal(100), {
          ...{ method: 'foliar', edibleParts: 'present' },
          targets: [{ fieldId: id('North 4'), plantingId: id('crop') }],
        });
      return outcomeOf(season.season(), 'contact-allowed', 'A-1');
    };
    expect(soaked('seedForSprouts')).toMatchObject({ outcome: 'broken' });
    expect(soaked('seedForSprouts').message).toContain('of crop, seed for sprouts: do not harvest it');
    expect(soaked('leaf').message).toContain('touched what is eaten of crop: do not harvest it');
  });
});

describe('figures of a windrow', () => {
  it('have its turnings, as 7 CFR 205.203(c)(2) and 21 CFR 112.54(b) count them', () => {
    const season = ordinary();
    season.material('manure', { kind: 'other', animalOrigin: 'yes' }).lot('Man-1', 'manure', lb(1000));
    season.add('pile.started', '03-01 08:00', {
      ...{ pileId: id('P-1'), code: 'P-1', method: 'windrow', carbonToNitrogen: 30 },
      inputs: [{ lotId: id('Man-1'), quantity: lb(500) }],
    });
    for (const day of ['02', '03', '04'])
      season.add('pile.measured', `03-${day} 08:00`, { pileId: id('P-1'), temperatures: [{ value: fahrenheit(140) }] });
    season.add('pile.turned', '03-03 09:00', { pileId: id('P-1') });
    for (const ruleId of ['compost-produce', 'compost-organic'])
      expect(outcomeOf(season.season(), ruleId, 'P-1').figures).toContainEqual(
        expect.objectContaining({ name: 'turnings', limit: 5 }),
      );
    expect(outcomeOf(season.season(), 'compost-produce', 'P-1').figures).toContainEqual({
      ...{ name: 'turnings', value: 1, limit: 5 },
    });
  });
});

describe('water near freezing', () => {
  it('has room for oxygen worked out from 0 °C on, not below', () => {
    const figures = (celsius: number) => {
      const season = ordinary();
      const batch = season.batch('T-14').filled('06-02 05:00').airOn('06-02 05:00').fed('06-02 06:00', 'C-1');
      batch.checked('06-02 12:00', { temperature: { value: celsius, unit: 'Cel' } });
      return outcomeOf(season.season(), 'temperature-range', 'T-14').figures;
    };
    // At 0 °C and sea level water holds 14.62 mg/L (APHA 4500-O table, from memory): 8.62 above the 6 of the limit.
    expect(figures(0)[1]).toMatchObject({ name: 'oxygenHeadroomMgPerL', value: expect.closeTo(8.62, 1) });
    expect(figures(-0.5)).toHaveLength(1);
  });
});

describe('what a rule does not speak of, and why', () => {
  it('air, while no food is in; and tea that needs none', () => {
    const said = (kind: 'aeratedTea' | 'extract') => {
      const season = ordinary();
      season.batch('T-14', '06-02 04:00', { kind }).filled('06-02 05:00').airOn('06-02 05:00').airOff('06-02 07:00');
      return outcomeOf(season.season(), 'air-continuous', 'T-14');
    };
    expect(said('aeratedTea')).toMatchObject({ outcome: 'notApplicable', message: 'No food is in yet.' });
    expect(said('extract').message).toBe('Only aerated tea needs air throughout.');
  });

  it('contact, where compost was wetted and no crop touched', () => {
    const season = ordinary();
    season
      .batch('T-14')
      .filled('06-02 05:00')
      .fed('06-02 06:00', 'M-1')
      .applied('A-1', '06-03 07:00', '06-03 08:00', 'North 4', gal(100), {
        ...{ method: 'compostWetting', edibleParts: 'present' },
        targets: [{ lotId: id('C-1') }],
      });
    expect(outcomeOf(season.season(), 'contact-allowed', 'A-1')).toMatchObject({
      outcome: 'notApplicable',
      message: 'Compost was wetted; no crop was touched.',
    });
  });
});

describe('words that tell which thing is meant', () => {
  const square = {
    type: 'Polygon' as const,
    coordinates: [
      [
        [-74.2, 42.1],
        [-74.198, 42.1],
        [-74.198, 42.1016],
        [-74.2, 42.1],
      ],
    ],
  };
  it('a boundary of the field itself, or of the one around it', () => {
    const season = ordinary()
      .field('West', { boundary: square })
      .field('Bed 1', { kind: 'bed', parentId: id('West') });
    season.harvest('H-1', 'Bed 1', '07-14 09:00');
    expect(outcomeOf(season.season(), 'field-located', 'West').message).toBe('The boundary of West is on record.');
    expect(outcomeOf(season.season(), 'field-located', 'Bed 1').message).toBe(
      'The boundary of West around Bed 1 is on record.',
    );
  });
});

describe('a check without a temperature', () => {
  it('tells none', () => {
    const season = ordinary();
    season.batch('T-14').filled('06-02 05:00').fed('06-02 06:00', 'C-1').checked('06-02 12:00', { odour: 'earthy' });
    expect(outcomeOf(season.season(), 'temperature-range', 'T-14')).toMatchObject({
      outcome: 'notApplicable',
      message: 'No temperature is recorded.',
    });
  });
});

describe('a lot held and used in the same minute', () => {
  it('was held when it was used; released in that minute, it was free', () => {
    const use = (type: 'lot.held' | 'lot.released') => {
      const season = ordinary();
      if (type === 'lot.released') season.add('lot.held', '06-01 07:00', { lotId: id('M-1'), reason: 'seal broken' });
      season.add(type, '06-01 08:00', { lotId: id('M-1'), reason: 'seal broken' });
      season.batch('T-14').filled('06-01 05:00').fed('06-01 08:00', 'M-1');
      return outcomeOf(season.season(), 'input-not-held', 'M-1').outcome;
    };
    expect([use('lot.held'), use('lot.released')]).toEqual(['broken', 'met']);
  });
});

describe('a recipe, where it cannot be told whether it was followed', () => {
  const brewed = (of: { recipe?: boolean; filled?: Quantity; fed?: Quantity }) => {
    const season = ordinary();
    if (of.recipe !== false)
      season.add('recipe.published', '01-05 09:00', {
        ...{ recipeId: id('R'), edition: 1, code: 'R', kind: 'aeratedTea', basisVolume: gal(250) },
        ingredients: [{ materialId: id('compost'), amount: lb(5) }],
      });
    season
      .batch('T-14', '06-02 04:00', { recipeId: id('R') })
      .filled('06-02 05:00', of.filled ?? gal(250))
      .fed('06-02 06:00', 'C-1', of.fed ?? lb(5));
    return outcomeOf(season.season(), 'recipe-followed', 'T-14').outcome;
  };
  /** In a bucket that nobody weighed. */
  const buckets = { value: 2, unit: '{measure}', measureId: id('unweighed') };
  it('says so: a tank that was never filled, one filled with nothing, a recipe for no water at all', () => {
    const unfilled = ordinary();
    const recipe = (season: SeasonBuilder, basis: number) =>
      season.add('recipe.published', '01-05 09:00', {
        ...{ recipeId: id('R'), edition: 1, code: 'R', kind: 'aeratedTea', basisVolume: gal(basis) },
        ingredients: [{ materialId: id('compost'), amount: lb(5) }],
      });
    recipe(unfilled, 250);
    unfilled.batch('T-14', '06-02 04:00', { recipeId: id('R') }).fed('06-02 06:00', 'C-1', lb(5));
    expect(outcomeOf(unfilled.season(), 'recipe-followed', 'T-14').outcome).toBe('unknown');
    expect(brewed({ filled: gal(0) })).toBe('unknown');
    const none = ordinary();
    recipe(none, 0);
    none
      .batch('T-14', '06-02 04:00', { recipeId: id('R') })
      .filled('06-02 05:00')
      .fed('06-02 06:00', 'C-1', lb(5));
    expect(outcomeOf(none.season(), 'recipe-followed', 'T-14').outcome).toBe('unknown');
  });
  it('a bucket is worth what it weighed on the day: weighed anew, it counts so from then on', () => {
    const judged = (fedAt: string, registeredTwice = false) => {
      const season = ordinary();
      const measure = { measureId: id('bucket'), name: 'bucket', weighedOn: '2026-01-01' };
      if (registeredTwice) season.add('measure.registered', '01-01 08:00', { ...measure, equals: lb(1) });
      season.add('measure.registered', '01-02 08:00', { ...measure, equals: lb(5) });
      season.add('measure.revised', '06-02 07:00', { measureId: id('bucket'), equals: lb(10) });
      season.add('recipe.published', '01-05 09:00', {
        ...{ recipeId: id('R'), edition: 1, code: 'R', kind: 'aeratedTea', basisVolume: gal(250) },
        ingredients: [{ materialId: id('compost'), amount: lb(10) }],
      });
      season
        .batch('T-14', '06-02 04:00', { recipeId: id('R') })
        .filled('06-02 05:00')
        .fed(fedAt, 'C-1', { value: 1, unit: '{measure}', measureId: id('bucket') });
      return outcomeOf(season.season(), 'recipe-followed', 'T-14').figures[0]?.value;
    };
    expect([judged('06-02 06:59'), judged('06-02 07:00'), judged('06-02 06:59', true)]).toEqual([5, 10, 5]);
  });
  it('a litre of water is as good as a tank: a recipe is scaled to however little', () => {
    const season = ordinary();
    const litre = { value: 1, unit: 'L' };
    season.add('recipe.published', '01-05 09:00', {
      ...{ recipeId: id('R'), edition: 1, code: 'R', kind: 'aeratedTea', basisVolume: litre },
      ingredients: [{ materialId: id('compost'), amount: lb(0.1) }],
    });
    season
      .batch('T-14', '06-02 04:00', { recipeId: id('R') })
      .filled('06-02 05:00', litre)
      .fed('06-02 06:00', 'C-1', lb(0.1));
    expect(outcomeOf(season.season(), 'recipe-followed', 'T-14').outcome).toBe('met');
  });
  it('says so: no such recipe, a fill or an amount in what nobody weighed', () => {
    expect(brewed({})).toBe('met');
    expect(brewed({ recipe: false })).toBe('unknown');
    expect(brewed({ filled: buckets })).toBe('unknown');
    expect(brewed({ fed: buckets })).toBe('unknown');
  });
});

describe('times that are not exact', () => {
  it('a gap between looks at the oxygen that may lie on either side of 16 h cannot be told', () => {
    const looked = (plusMinusMinutes: number) => {
      const season = ordinary();
      season
        .batch('T-14')
        .filled('06-02 05:00')
        .airOn('06-02 05:00')
        .fed('06-02 06:00', 'C-1')
        // 15 h 30 min after the food, give or take.
        .oxygen('06-02 21:30', 7, {}, { plusMinusMinutes })
        .oxygen('06-03 05:00', 7)
        .applied('A-1', '06-03 06:00', '06-03 07:00', 'North 4', gal(250));
      return outcomeOf(season.season(), 'oxygen-checked', 'T-14', { kind: 'batch' }).outcome;
    };
    expect(looked(20)).not.toBe('unknown');
    expect(looked(60)).toBe('unknown');
  });
  it('a reading typed 3 h 30 min after it was taken, give or take an hour, may be late or not', () => {
    const typed = (plusMinusMinutes: number) => {
      const season = ordinary();
      const beside = { plusMinusMinutes, enteredAt: '06-02 11:30' };
      season.batch('T-14').filled('06-02 05:00').fed('06-02 06:00', 'C-1').oxygen('06-02 08:00', 7, {}, beside);
      return outcomeOf(season.season(), 'record-timely', 'T-14').outcome;
    };
    expect(typed(20)).toBe('met');
    expect(typed(60)).toBe('unknown');
  });
});
