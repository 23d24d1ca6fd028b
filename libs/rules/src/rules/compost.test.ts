import type { Quantity } from '@furrowmark/domain';
import { describe, expect, it } from '@jest/globals';
import { fahrenheit, gal, id, instant, lb, ordinary, type SeasonBuilder } from '../testing/season.ts';
import { outcomeOf } from '../testing/verdicts.ts';

type Method = 'windrow' | 'staticAerated' | 'inVessel' | 'vermicompost' | 'passive';

interface Pile {
  readonly method?: Method;
  readonly days?: number;
  readonly turnings?: number;
  readonly f?: number;
  readonly carbonToNitrogen?: number | null;
  readonly missed?: number;
  readonly cured?: boolean;
  readonly finishedOn?: string;
  readonly plantOnly?: boolean;
}
const march = (day: number): string => new Date(Date.UTC(2026, 2, 1 + day)).toISOString().slice(0, 10);

/** A pile begun on 1 March and measured once a day from 2 March on. */
function pile(season: SeasonBuilder, given: Pile): SeasonBuilder {
  const {
    method = 'windrow',
    days = 15,
    turnings = 5,
    f = 140,
    carbonToNitrogen = 30,
    missed,
    cured = true,
    finishedOn = '2026-05-01',
    plantOnly = false,
  } = given;
  season.material('manure', { kind: 'other', animalOrigin: plantOnly ? 'no' : 'yes' }).lot('Man-1', 'manure', lb(1000));
  season.material('own compost', { animalOrigin: plantOnly ? 'no' : 'yes' });
  season.add('pile.started', '2026-03-01 08:00', {
    pileId: id('P-1'),
    code: 'P-1',
    method,
    inputs: [{ lotId: id('Man-1'), quantity: lb(500) }],
    ...(carbonToNitrogen === null ? {} : { carbonToNitrogen }),
  });
  // Cool before and after, so that only these days count.
  season.add('pile.measured', `${march(0)} 12:00`, { pileId: id('P-1'), temperatures: [{ value: fahrenheit(90) }] });
  for (let day = 1; day <= days; day++) {
    if (day !== missed)
      season.add('pile.measured', `${march(day)} 12:00`, {
        pileId: id('P-1'),
        temperatures: [{ value: fahrenheit(f) }],
      });
  }
  season.add('pile.measured', `${march(days + 1)} 12:00`, {
    pileId: id('P-1'),
    temperatures: [{ value: fahrenheit(90) }],
  });
  for (let turn = 1; turn <= turnings; turn++)
    season.add('pile.turned', `${march(turn * 2)} 14:00`, { pileId: id('P-1') });
  season.add('pile.finished', `${finishedOn} 08:00`, {
    pileId: id('P-1'),
    lotId: id('Own-1'),
    code: 'Own-1',
    materialId: id('own compost'),
    quantity: lb(400),
    ...(cured ? { curedFrom: '2026-04-01' } : {}),
  });
  return season;
}
const organic = (given: Pile) => outcomeOf(pile(ordinary(), given).season(), 'compost-organic', 'P-1').outcome;
const produce = (given: Pile) => outcomeOf(pile(ordinary(), given).season(), 'compost-produce', 'P-1').outcome;

describe('compost-organic (7 CFR 205.203(c)(2))', () => {
  it.each<[Pile, string, string]>([
    [{}, 'met', 'a windrow of 15 days with 5 turnings at 140 °F, 30:1'],
    [{ days: 14 }, 'broken', '14 days'],
    [{ turnings: 4 }, 'broken', '4 turnings'],
    [{ f: 131 }, 'met', 'exactly 131 °F'],
    [{ f: 130.9 }, 'broken', 'a tenth below 131 °F'],
    [{ f: 170 }, 'met', 'exactly 170 °F'],
    [{ f: 170.1 }, 'broken', 'a tenth above 170 °F'],
    [{ carbonToNitrogen: 25 }, 'met', '25:1'],
    [{ carbonToNitrogen: 24.9 }, 'broken', 'below 25:1'],
    [{ carbonToNitrogen: 40 }, 'met', '40:1'],
    [{ carbonToNitrogen: 40.1 }, 'broken', 'above 40:1'],
    [{ carbonToNitrogen: null }, 'unknown', 'a mix that nobody wrote down'],
    [{ missed: 7 }, 'unknown', 'a day that nobody measured'],
    [{ method: 'staticAerated', days: 3, turnings: 0 }, 'met', 'an aerated pile of 3 days'],
    [{ method: 'staticAerated', days: 2, turnings: 0 }, 'broken', 'an aerated pile of 2 days'],
    [{ method: 'inVessel', days: 3, turnings: 0 }, 'met', 'a vessel of 3 days'],
    [{ method: 'passive' }, 'broken', 'a pile neither turned nor aerated'],
    [{ plantOnly: true, days: 1 }, 'notApplicable', 'leaves and straw alone'],
    [{ method: 'vermicompost', finishedOn: '2026-04-01' }, 'broken', 'worms, 31 days'],
    [{ method: 'vermicompost', finishedOn: '2026-09-01' }, 'caution', 'worms, 184 days'],
    [{ method: 'vermicompost', finishedOn: '2027-03-01' }, 'met', 'worms, a year'],
  ])('%j is %s: %s', (given, verdict) => {
    expect(organic(given)).toBe(verdict);
  });
  it.each<[Pile['method'], number, number, string]>([
    ['staticAerated', 2, 0, 'broken'],
    ['staticAerated', 3, 0, 'met'],
    ['windrow', 14, 5, 'broken'],
    ['windrow', 15, 5, 'met'],
  ])(
    'a pile (%s) finished on its last warm day, the %i-th, after %i turnings: %s',
    (method, days, turnings, verdict) => {
      const season = ordinary();
      season.material('manure', { kind: 'other', animalOrigin: 'yes' }).lot('Man-1', 'manure', lb(1000));
      season.material('own compost', { animalOrigin: 'yes' });
      season.add('pile.started', `${march(0)} 08:00`, {
        ...{ pileId: id('P-1'), code: 'P-1', method: method ?? 'windrow', carbonToNitrogen: 30 },
        inputs: [{ lotId: id('Man-1'), quantity: lb(500) }],
      });
      for (let day = 0; day <= days; day++)
        season.add('pile.measured', `${march(day)} 12:00`, {
          ...{ pileId: id('P-1'), temperatures: [{ value: fahrenheit(day === 0 ? 90 : 140) }] },
        });
      for (let turn = 1; turn <= turnings; turn++)
        season.add('pile.turned', `${march(days - turn)} 14:00`, { pileId: id('P-1') });
      season.add('pile.finished', `${march(days)} 16:00`, {
        ...{ pileId: id('P-1'), lotId: id('Own-1'), code: 'Own-1', materialId: id('own compost'), quantity: lb(400) },
      });
      expect(outcomeOf(season.season(), 'compost-organic', 'P-1').outcome).toBe(verdict);
    },
  );
  // An aerated pile needs 3 days in a row. W: warm, c: cold, -: not measured; read from the day on which it was begun.
  it.each([
    ['cW-Wc', 1],
    ['cW--W-Wc', 1],
    ['cW-W--Wc', 1],
    ['cW--Wc', 2],
    ['cW--c', 2],
  ])('of a pile of %s the days that nobody measured are counted where fewest are missing: %i', (days, missing) => {
    const season = ordinary();
    season.material('manure', { kind: 'other', animalOrigin: 'yes' }).lot('Man-1', 'manure', lb(1000));
    season.material('own compost', { animalOrigin: 'yes' });
    season.add('pile.started', `${march(0)} 08:00`, {
      ...{ pileId: id('P-1'), code: 'P-1', method: 'staticAerated', carbonToNitrogen: 30 },
      inputs: [{ lotId: id('Man-1'), quantity: lb(500) }],
    });
    for (const [day, state] of [...days].entries())
      if (state !== '-')
        season.add('pile.measured', `${march(day)} 12:00`, {
          ...{ pileId: id('P-1'), temperatures: [{ value: fahrenheit(state === 'W' ? 140 : 90) }] },
        });
    season.add('pile.finished', `${march(days.length - 1)} 16:00`, {
      ...{ pileId: id('P-1'), lotId: id('Own-1'), code: 'Own-1', materialId: id('own compost'), quantity: lb(400) },
    });
    const { outcome, message } = outcomeOf(season.season(), 'compost-organic', 'P-1');
    expect(outcome).toBe('unknown');
    expect(message).toContain(`No temperature is recorded for ${String(missing)} of the days`);
  });
  it.each<[Pile, RegExp]>([
    [{ turnings: 4 }, /15 such days in a row and 4 turnings; asked are 15 days .* °F with 5 turnings\. It counts/],
    [
      { method: 'staticAerated', days: 2, turnings: 0 },
      /2 such days in a row; asked are 3 days in a row between 131 and 170 °F\. It counts/,
    ],
    [{}, /show 15 days in a row between 131 and 170 °F with 5 turnings, and 30:1/],
  ])('%j: the words say what the records show, and what is asked of such a pile', (given, words) => {
    expect(outcomeOf(pile(ordinary(), given).season(), 'compost-organic', 'P-1').message).toMatch(words);
  });
  it('one cold spot on one day breaks the row', () => {
    const season = pile(ordinary(), {});
    season.add('pile.measured', `${march(8)} 13:00`, {
      pileId: id('P-1'),
      temperatures: [{ value: fahrenheit(140) }, { value: fahrenheit(110) }],
    });
    expect(outcomeOf(season.season(), 'compost-organic', 'P-1').outcome).toBe('broken');
  });
});

describe('compost-produce (21 CFR 112.54(b), read 2026-11-26)', () => {
  it.each<[Pile, string, string]>([
    [{}, 'met', 'the same windrow, cured'],
    [{ carbonToNitrogen: null }, 'met', 'no C:N is asked for'],
    [{ f: 180 }, 'met', 'no upper temperature'],
    [{ f: 130.9 }, 'broken', 'a tenth below 131 °F'],
    [{ days: 14 }, 'broken', '14 days'],
    [{ missed: 7 }, 'unknown', 'a day that nobody measured'],
    [{ cured: false }, 'unknown', 'curing not on record'],
    [{ method: 'vermicompost' }, 'unknown', 'worms'],
    [{ turnings: 4 }, 'broken', '4 turnings'],
    [{ plantOnly: true, days: 1 }, 'notApplicable', 'leaves and straw alone'],
  ])('%j is %s: %s', (given, verdict) => {
    expect(produce(given)).toBe(verdict);
  });
  it.each<[Pile, RegExp]>([
    [{ turnings: 4 }, /; asked are 15 days at 131 °F or more with 5 turnings\. It counts as untreated/],
    [
      { method: 'staticAerated', days: 2, turnings: 0 },
      /; asked are 3 days in a row at 131 °F or more\. It counts as untreated/,
    ],
  ])('%j: the words say what is asked of such a pile', (given, words) => {
    expect(outcomeOf(pile(ordinary(), given).season(), 'compost-produce', 'P-1').message).toMatch(words);
  });

  // From memory: the 15 days of a turned pile do not have to be consecutive, the 3 of a static one do.
  it.each([
    [{ days: 16 }, 'met', 'broken'],
    [{ days: 15 }, 'broken', 'broken'],
    [{ method: 'staticAerated', days: 5, turnings: 0 }, 'broken', 'broken'],
  ] as const)('a cool day amid %j: by the produce rule %s, by the organic one %s', (given, produced, organically) => {
    const season = pile(ordinary(), given);
    season.add('pile.measured', `${march('method' in given ? 3 : 8)} 13:00`, {
      pileId: id('P-1'),
      temperatures: [{ value: fahrenheit(110) }],
    });
    expect(outcomeOf(season.season(), 'compost-produce', 'P-1').outcome).toBe(produced);
    expect(outcomeOf(season.season(), 'compost-organic', 'P-1').outcome).toBe(organically);
  });
});

describe('piles measured and turned about midnight', () => {
  // In daylight-saving time, as these tests write their times.
  const april = (day: number): string => `2026-04-${String(1 + day).padStart(2, '0')}`;
  /** 3 days of a static pile at 140 °F, the last one read at 23:30 on the third day; perhaps on the fourth. */
  const measured = (plusMinusMinutes: number, f = 140, finished = true) => {
    const season = ordinary();
    season.material('manure', { kind: 'other', animalOrigin: 'yes' }).lot('Man-1', 'manure', lb(1000));
    season.material('own compost', { animalOrigin: 'yes' });
    season.add('pile.started', '2026-04-01 08:00', {
      ...{ pileId: id('P-1'), code: 'P-1', method: 'staticAerated', carbonToNitrogen: 30 },
      inputs: [{ lotId: id('Man-1'), quantity: lb(500) }],
    });
    const read = (when: string, value: number, beside = {}) =>
      season.add('pile.measured', when, { pileId: id('P-1'), temperatures: [{ value: fahrenheit(value) }] }, beside);
    read(`${april(0)} 12:00`, 90);
    read(`${april(1)} 12:00`, 140);
    read(`${april(2)} 12:00`, 140);
    read(`${april(3)} 23:30`, f, { plusMinusMinutes });
    read(`${april(5)} 12:00`, 90);
    if (finished)
      season.add('pile.finished', '2026-05-01 08:00', {
        ...{ pileId: id('P-1'), lotId: id('Own-1'), code: 'Own-1', materialId: id('own compost') },
        ...{ quantity: lb(400), curedFrom: '2026-04-20' },
      });
    return outcomeOf(season.season(), 'compost-organic', 'P-1', { now: instant('2026-05-02 08:00') });
  };
  it.each([
    [0, 140, 'met', 'the third day'],
    [30, 140, 'unknown', 'it may be that the third day was not measured'],
    [29, 140, 'met', 'until 23:59'],
    [0, 100, 'broken', 'a cold third day'],
    [30, 100, 'unknown', 'the cold one may be the fourth day’s, and the third not measured'],
  ])('± %i min, %i °F: %s, %s', (plusMinusMinutes, f, verdict) => {
    expect(measured(plusMinusMinutes, f).outcome).toBe(verdict);
  });
  it('where the day is not sure, the days shown are those that were recorded', () => {
    expect(measured(30).figures[0]).toMatchObject({ name: 'daysAtTemperature', value: 3, limit: 3 });
  });
  it('the day on which a pile is begun counts once where it was warm already', () => {
    const season = ordinary();
    season.material('manure', { kind: 'other', animalOrigin: 'yes' }).lot('Man-1', 'manure', lb(1000));
    season.add('pile.started', '2026-04-01 08:00', {
      ...{ pileId: id('P-1'), code: 'P-1', method: 'staticAerated', carbonToNitrogen: 30 },
      inputs: [{ lotId: id('Man-1'), quantity: lb(500) }],
    });
    for (const day of [0, 1])
      season.add('pile.measured', `${april(day)} 12:00`, {
        pileId: id('P-1'),
        temperatures: [{ value: fahrenheit(140) }],
      });
    expect(outcomeOf(season.season(), 'compost-organic', 'P-1').figures[0]).toMatchObject({
      name: 'daysAtTemperature',
      value: 2,
    });
  });
  it('a cold reading and a turning about midnight that together may have spoiled it', () => {
    // 15 warm days from 2 to 16 March; the reading of 17 March at 23:45 was cold, on that day or the next. The fifth
    // turning, at 23:45 on 16 March, was perhaps on 17 March: if that was the cold day, outside the 15 warm ones.
    const judged = (plusMinusMinutes: number) => {
      const season = pile(ordinary(), { days: 16, turnings: 4 });
      season.add(
        'pile.measured',
        `${march(16)} 23:45`,
        { pileId: id('P-1'), temperatures: [{ value: fahrenheit(90) }] },
        { plusMinusMinutes },
      );
      season.add('pile.turned', `${march(15)} 23:45`, { pileId: id('P-1') }, { plusMinusMinutes });
      return ['compost-organic', 'compost-produce'].map((rule) => outcomeOf(season.season(), rule, 'P-1').outcome);
    };
    expect(judged(14)).toEqual(['met', 'met']);
    expect(judged(15)).toEqual(['unknown', 'unknown']);
  });
  it('of a pile that goes on the days to come decide', () => {
    expect(measured(30, 140, false).outcome).toBe('due');
  });

  it.each([
    [0, 'met'],
    [30, 'unknown'],
  ])('a fifth turning at 23:45 on the last of 15 days, ± %i min: %s', (plusMinusMinutes, verdict) => {
    const season = pile(ordinary(), { turnings: 4 });
    season.add('pile.turned', `${march(15)} 23:45`, { pileId: id('P-1') }, { plusMinusMinutes });
    expect(outcomeOf(season.season(), 'compost-organic', 'P-1').outcome).toBe(verdict);
    expect(outcomeOf(season.season(), 'compost-produce', 'P-1').outcome).toBe(verdict);
  });

  it.each([
    ['2026-03-01 08:00', '2026-04-30 00:10', 0, 'caution'],
    ['2026-03-01 08:00', '2026-04-30 00:10', 20, 'unknown'],
  ])('worms from %s until %s, ± %i min: %s', (from, until, plusMinusMinutes, verdict) => {
    const season = ordinary();
    season.material('manure', { kind: 'other', animalOrigin: 'yes' }).lot('Man-1', 'manure', lb(1000));
    season.material('own compost', { animalOrigin: 'yes' });
    season.add('pile.started', from, {
      ...{ pileId: id('P-1'), code: 'P-1', method: 'vermicompost' },
      inputs: [{ lotId: id('Man-1'), quantity: lb(500) }],
    });
    season.add(
      'pile.finished',
      until,
      {
        ...{ pileId: id('P-1'), lotId: id('Own-1'), code: 'Own-1', materialId: id('own compost') },
        quantity: lb(400),
      },
      { plusMinusMinutes },
    );
    expect(outcomeOf(season.season(), 'compost-organic', 'P-1').outcome).toBe(verdict);
  });
});

describe('treatment-status (21 CFR 112.51)', () => {
  const tea = (
    given: Pile | 'plants' | 'bought',
    { molasses = false, cfu = 0, documented }: { molasses?: boolean; cfu?: number; documented?: string } = {},
  ) => {
    const season = ordinary();
    let lot = 'C-1';
    if (given === 'bought') {
      season.material('bought compost', { animalOrigin: 'yes' }).lot('B-1', 'bought compost');
      if (documented !== undefined)
        season.add('material.documented', '01-05 09:00', {
          materialId: id('bought compost'),
          covers: 'treatment',
          from: documented,
        });
      lot = 'B-1';
    } else if (given !== 'plants') {
      pile(season, given);
      lot = 'Own-1';
    }
    if (cfu > 0) season.tested('W1', '05-20', cfu);
    const batch = season.batch('T-14').filled('06-02 05:00').airOn('06-02 05:00').fed('06-02 06:00', lot);
    if (molasses) batch.fed('06-02 06:05', 'M-1');
    return outcomeOf(season.season(), 'treatment-status', 'T-14');
  };
  const status = (...given: Parameters<typeof tea>) => tea(...given).figures[0]?.value;

  it('treated: own compost with its record, clean water, no additive', () => {
    expect(status({})).toBe('treated');
  });
  it('untreated: manure compost and molasses, whatever a test of the tea shows', () => {
    const outcome = tea({}, { molasses: true });
    expect(outcome.figures[0]?.value).toBe('untreated');
    expect(outcome.message).toBe(
      'Counts as untreated, because molasses and own compost: keep it off the crop. No test of the tea changes that.',
    );
  });
  it('untreated: a pile that was not hot, or water with E. coli', () => {
    expect(status({ days: 3 })).toBe('untreated');
    expect(status({}, { cfu: 2 })).toBe('untreated');
  });
  it('no animal origin: plant compost with molasses', () => {
    expect(status('plants', { molasses: true })).toBe('noAnimalOrigin');
  });
  type Origin = 'yes' | 'no' | 'unknown';
  /** Tea with molasses of the farm's own compost: as its material is registered, and as what went into its pile is. */
  const ofPile = (registered: Origin, input: Origin | 'no pile') => {
    const season = ordinary().material('input', { kind: 'other', animalOrigin: input === 'no pile' ? 'no' : input });
    season.lot('In-1', 'input', lb(1000)).material('own compost', { animalOrigin: registered });
    if (input !== 'no pile')
      season.add('pile.started', '03-01 08:00', {
        ...{ pileId: id('P-1'), code: 'P-1', method: 'windrow' },
        inputs: [{ lotId: id('In-1'), quantity: lb(500) }],
      });
    season.add('pile.finished', '05-01 08:00', {
      ...{ pileId: id('P-1'), lotId: id('Own-1'), code: 'Own-1', materialId: id('own compost'), quantity: lb(400) },
    });
    season.batch('T-14').filled('06-02 05:00').fed('06-02 06:00', 'Own-1').fed('06-02 06:05', 'M-1');
    return outcomeOf(season.season(), 'treatment-status', 'T-14').figures[0]?.value;
  };
  it.each<[Origin, Origin | 'no pile', string]>([
    ['no', 'yes', 'untreated'],
    ['unknown', 'yes', 'untreated'],
    ['yes', 'no', 'untreated'],
    ['no', 'unknown', 'unknown'],
    ['no', 'no', 'noAnimalOrigin'],
    ['no', 'no pile', 'noAnimalOrigin'],
    ['unknown', 'no pile', 'unknown'],
    ['yes', 'no pile', 'untreated'],
  ])('own compost registered as of animals: %s, made of what is: %s, with molasses: %s', (registered, input, state) => {
    expect(ofPile(registered, input)).toBe(state);
  });
  it('manure two piles back is still manure, and compost that went back into its own pile is not asked for ever', () => {
    const season = ordinary().material('manure', { kind: 'other', animalOrigin: 'yes' }).lot('Man-1', 'manure');
    season.material('own compost', { animalOrigin: 'no' });
    for (const [pileId, input, made] of [
      ['P-1', 'Man-1', 'Own-1'],
      ['P-2', 'Own-1', 'Own-2'],
      ['P-3', 'Own-3', 'Own-3'],
    ] as const) {
      season.add('pile.started', '03-01 08:00', {
        ...{ pileId: id(pileId), code: pileId, method: 'windrow' },
        inputs: [{ lotId: id(input), quantity: lb(50) }],
      });
      season.add('pile.finished', '05-01 08:00', {
        ...{ pileId: id(pileId), lotId: id(made), code: made, materialId: id('own compost'), quantity: lb(40) },
      });
    }
    for (const [code, lot] of [
      ['T-14', 'Own-2'],
      ['T-15', 'Own-3'],
    ] as const)
      season.batch(code, '06-02 04:00').filled('06-02 05:00').fed('06-02 06:00', lot).fed('06-02 06:05', 'M-1');
    const open = season.season();
    expect(outcomeOf(open, 'treatment-status', 'T-14').figures[0]?.value).toBe('untreated');
    expect(outcomeOf(open, 'treatment-status', 'T-15').figures[0]?.value).toBe('noAnimalOrigin');
  });
  it('open: bought compost without a current treatment record', () => {
    expect(status('bought')).toBe('unknown');
    // Used on 2 June 2026.
    expect(status('bought', { documented: '2026-01-01' })).toBe('treated');
    expect(status('bought', { documented: '2026-06-02' })).toBe('treated');
    expect(status('bought', { documented: '2026-06-03' })).toBe('unknown');
    // Without an end of its own it counts for 365 days.
    expect(status('bought', { documented: '2025-06-02' })).toBe('treated');
    expect(status('bought', { documented: '2025-06-01' })).toBe('unknown');
  });
  it('treated compost beside a lot of which nobody knows whether it is of animals: it cannot be told', () => {
    const season = pile(ordinary(), {}).material('guano', { animalOrigin: 'unknown' }).lot('G-1', 'guano');
    season.batch('T-14').filled('06-02 05:00').fed('06-02 06:00', 'Own-1').fed('06-02 06:05', 'G-1');
    const { figures, message } = outcomeOf(season.season(), 'treatment-status', 'T-14');
    expect(figures[0]?.value).toBe('unknown');
    expect(message).toContain('guano');
  });
  it.each<[string, 'nutrient' | 'extract' | 'compost' | 'vermicompost', 'yes' | 'no', string]>([
    ['molasses', 'nutrient', 'yes', 'untreated'],
    ['a nutrient that feeds no microbes', 'nutrient', 'no', 'untreated'],
    ['an extract that feeds microbes', 'extract', 'yes', 'untreated'],
    ['an extract that does not', 'extract', 'no', 'treated'],
    ['compost, which feeds them as well', 'compost', 'yes', 'treated'],
    ['worm compost', 'vermicompost', 'yes', 'treated'],
  ])('treated compost with %s (%s, feeds microbes: %s): %s', (_, kind, microbialFood, state) => {
    const season = pile(ordinary(), {}).material('other', { kind, microbialFood }).lot('O-1', 'other');
    season.batch('T-14').filled('06-02 05:00').fed('06-02 06:00', 'Own-1').fed('06-02 06:05', 'O-1');
    expect(outcomeOf(season.season(), 'treatment-status', 'T-14').figures[0]?.value).toBe(state);
    // What makes the tea untreated is what has to be tested.
    const tested = outcomeOf(season.season(), 'additive-tested', 'T-14');
    expect(tested.outcome === 'notApplicable').toBe(state === 'treated');
  });
  it('an additive in the sprayer makes treated tea untreated', () => {
    const season = pile(ordinary(), {});
    season
      .batch('T-14')
      .filled('06-02 05:00')
      .airOn('06-02 05:00')
      .fed('06-02 06:00', 'Own-1')
      .applied('A-1', '06-03 07:00', '06-03 08:00', 'North 4', gal(100), {
        tankMix: [{ lotId: id('M-1'), quantity: lb(1) }],
      });
    const open = season.season();
    expect(outcomeOf(open, 'treatment-status', 'T-14').figures[0]?.value).toBe('treated');
    expect(outcomeOf(open, 'treatment-status', 'A-1').figures[0]?.value).toBe('untreated');
  });

  describe('contact-allowed (21 CFR 112.56(a))', () => {
    type Made = { method: 'foliar' | 'soilDrench' | 'seedSoak' | 'rootDip'; edibleParts?: 'present' | 'absent' };
    type Part = 'leaf' | 'root' | 'tree' | 'grain' | 'seedForSprouts' | 'fruitAbove' | 'fruitOnGround';
    type Kind = 'untreated' | 'treated' | 'plants' | 'open';
    const contact = (kind: Kind, ediblePart: Part | null, made: Made) => {
      const season = kind === 'plants' || kind === 'open' ? ordinary() : pile(ordinary(), {});
      // Guano of which nobody wrote down whether it is of animal origin.
      season.material('guano', { animalOrigin: 'unknown' }).lot('G-1', 'guano');
      if (ediblePart !== null) season.planting('crop', 'North 4', { ediblePart });
      const batch = season
        .batch('T-14')
        .filled('06-02 05:00')
        .airOn('06-02 05:00')
        .fed('06-02 06:00', kind === 'plants' ? 'C-1' : kind === 'open' ? 'G-1' : 'Own-1');
      if (kind === 'untreated') batch.fed('06-02 06:05', 'M-1');
      batch.applied('A-1', '06-03 07:00', '06-03 08:00', 'North 4', gal(100), made);
      return outcomeOf(season.season(), 'contact-allowed', 'A-1').outcome;
    };
    it.each<[Kind, Part | null, Made, string, string]>([
      ['untreated', 'leaf', { method: 'foliar', edibleParts: 'present' }, 'broken', 'onto standing lettuce'],
      ['untreated', 'leaf', { method: 'foliar', edibleParts: 'absent' }, 'met', 'before there are leaves to eat'],
      ['untreated', 'leaf', { method: 'foliar' }, 'unknown', 'whether leaves were there nobody wrote down'],
      ['untreated', 'leaf', { method: 'soilDrench', edibleParts: 'present' }, 'caution', 'on the ground under lettuce'],
      ['untreated', 'root', { method: 'soilDrench', edibleParts: 'present' }, 'broken', 'on the ground over carrots'],
      ['untreated', 'tree', { method: 'soilDrench', edibleParts: 'present' }, 'met', 'on the ground under apples'],
      [
        'untreated',
        'grain',
        { method: 'foliar', edibleParts: 'present' },
        'notApplicable',
        'grain is no covered produce',
      ],
      ['untreated', 'root', { method: 'soilDrench' }, 'unknown', 'whether roots were there nobody wrote down'],
      ['untreated', 'root', { method: 'foliar', edibleParts: 'present' }, 'caution', 'on the leaves over carrots'],
      ['untreated', 'root', { method: 'rootDip', edibleParts: 'present' }, 'broken', 'carrots dipped in it'],
      ['untreated', 'root', { method: 'rootDip', edibleParts: 'absent' }, 'met', 'before there are carrots'],
      ['untreated', 'leaf', { method: 'rootDip', edibleParts: 'present' }, 'met', 'the roots of lettuce'],
      ['untreated', 'leaf', { method: 'seedSoak', edibleParts: 'present' }, 'met', 'the seed of lettuce'],
      ['untreated', 'fruitAbove', { method: 'soilDrench', edibleParts: 'present' }, 'met', 'under staked tomatoes'],
      ['untreated', 'fruitOnGround', { method: 'soilDrench', edibleParts: 'present' }, 'caution', 'under squash'],
      ['untreated', null, { method: 'soilDrench' }, 'met', 'on ground where nothing stands'],
      ['untreated', null, { method: 'soilDrench', edibleParts: 'present' }, 'caution', 'under an unnamed crop'],
      ['untreated', null, { method: 'foliar', edibleParts: 'present' }, 'broken', 'onto an unnamed crop'],
      ['untreated', null, { method: 'foliar' }, 'unknown', 'onto what nobody wrote down'],
      ['open', 'leaf', { method: 'foliar', edibleParts: 'present' }, 'unknown', 'onto lettuce, what it is open'],
      ['open', 'leaf', { method: 'foliar' }, 'unknown', 'onto leaves that may have been there'],
      ['open', 'leaf', { method: 'soilDrench', edibleParts: 'present' }, 'caution', 'on the ground, what it is open'],
      ['untreated', 'seedForSprouts', { method: 'seedSoak' }, 'broken', 'seed for sprouts'],
      ['treated', 'leaf', { method: 'foliar', edibleParts: 'present' }, 'caution', 'contact is to be kept low'],
      ['treated', 'leaf', { method: 'soilDrench', edibleParts: 'present' }, 'met', 'contact kept low'],
      ['plants', 'leaf', { method: 'foliar', edibleParts: 'present' }, 'met', 'nothing of animal origin'],
    ])('%s tea, %s, %j: %s (%s)', (kind, part, made, verdict) => {
      expect(contact(kind, part, made)).toBe(verdict);
    });
    it.each([
      [['Own-1', 'M-1'], ['C-1']],
      [['C-1'], ['Own-1', 'M-1']],
    ])('of %j and %j mixed in one sprayer the worse counts', (first, second) => {
      const season = pile(ordinary(), {}).planting('crop', 'North 4', { ediblePart: 'leaf' });
      for (const [code, lots] of [
        ['T-14', first],
        ['T-15', second],
      ] as const) {
        const batch = season.batch(code).filled('06-02 05:00').airOn('06-02 05:00');
        for (const lot of lots) batch.fed('06-02 06:00', lot);
      }
      season.add('application.made', '06-03 08:00', {
        ...{ applicationId: id('A-1'), code: 'A-1', targets: [{ fieldId: id('North 4') }] },
        draws: [
          { batchId: id('T-14'), volume: gal(50) },
          { batchId: id('T-15'), volume: gal(50) },
        ],
        ...{ startedAt: '2026-06-03T07:00:00-05:00', finishedAt: '2026-06-03T08:00:00-05:00' },
        ...{ method: 'foliar', edibleParts: 'present', applicator: id('Ines') },
      });
      expect(outcomeOf(season.season(), 'contact-allowed', 'A-1').outcome).toBe('broken');
    });
    it.each([
      ['of a load that nobody wrote down it cannot be told', false, 'unknown'],
      ['beside such a load untreated tea is still untreated', true, 'broken'],
    ])('%s', (_, beside, verdict) => {
      const season = pile(ordinary(), {}).planting('crop', 'North 4', { ediblePart: 'leaf' });
      season.batch('T-14').filled('06-02 05:00').fed('06-02 06:00', 'Own-1').fed('06-02 06:00', 'M-1');
      season.add('application.made', '06-03 08:00', {
        ...{ applicationId: id('A-1'), code: 'A-1', targets: [{ fieldId: id('North 4') }] },
        draws: [{ drawId: id('load') }, ...(beside ? [{ batchId: id('T-14'), volume: gal(50) }] : [])],
        ...{ startedAt: '2026-06-03T07:00:00-05:00', finishedAt: '2026-06-03T08:00:00-05:00' },
        ...{ method: 'foliar', edibleParts: 'present', applicator: id('Ines') },
      });
      expect(outcomeOf(season.season(), 'contact-allowed', 'A-1').outcome).toBe(verdict);
    });
    it('says whether it did touch or may have, where it is open what the tea is', () => {
      const message = (edibleParts?: 'present') => {
        const season = ordinary().material('guano', { animalOrigin: 'unknown' }).lot('G-1', 'guano');
        season.planting('crop', 'North 4');
        season
          .batch('T-14')
          .filled('06-02 05:00')
          .fed('06-02 06:00', 'G-1')
          .applied('A-1', '06-03 07:00', '06-03 08:00', 'North 4', gal(100), {
            method: 'foliar',
            ...(edibleParts === undefined ? {} : { edibleParts }),
          });
        return outcomeOf(season.season(), 'contact-allowed', 'A-1').message;
      };
      expect(message('present')).not.toBe(message());
      expect(message()).toContain('may');
    });
    it('is critical', () => {
      const season = pile(ordinary(), {}).planting('crop', 'North 4');
      season
        .batch('T-14')
        .filled('06-02 05:00')
        .fed('06-02 06:00', 'Own-1')
        .fed('06-02 06:05', 'M-1')
        .applied('A-1', '06-03 07:00', '06-03 08:00', 'North 4', gal(100), {
          method: 'foliar',
          edibleParts: 'present',
        });
      expect(outcomeOf(season.season(), 'contact-allowed', 'A-1')).toMatchObject({
        severity: 'critical',
        basis: 'regulation',
      });
    });
  });
});

describe('additive-tested (NOSB recommendation, advisory; 126 and 33 in 100 mL second-hand)', () => {
  const tested = (results: readonly (readonly [number, number])[], changed = false) => {
    const season = ordinary();
    results.forEach(([coli, enterococci], i) => {
      const day = `05-${String(2 + i * 4).padStart(2, '0')}`;
      season
        .batch(`E-${i}`, `${day} 04:00`)
        .filled(`${day} 05:00`)
        .fed(`${day} 06:00`, 'C-1')
        .fed(`${day} 06:05`, 'M-1');
      season.add('batch.sampled', `${day} 12:00`, { batchId: id(`E-${i}`), sampleId: id(`S-${i}`), takenFrom: 'tank' });
      season.add('batch.analysed', `${day} 20:00`, {
        batchId: id(`E-${i}`),
        sampleId: id(`S-${i}`),
        laboratory: 'county laboratory',
        results: [
          { analyte: 'E. coli', value: { value: coli, unit: '{CFU}/(100.mL)' } },
          { analyte: 'enterococci', value: { value: enterococci, unit: '{CFU}/(100.mL)' } },
        ],
      });
    });
    if (changed) season.add('vessel.revised', '05-25 09:00', { vesselId: id('Tote 2'), workingVolume: gal(280) });
    season.batch('T-14').filled('06-02 05:00').fed('06-02 06:00', 'C-1').fed('06-02 06:05', 'M-1');
    return outcomeOf(season.season(), 'additive-tested', 'T-14').outcome;
  };
  it.each<[readonly (readonly [number, number])[], string, string]>([
    [
      [
        [126, 33],
        [126, 33],
      ],
      'met',
      'two results exactly at the limits',
    ],
    [
      [
        [126, 33],
        [127, 33],
      ],
      'broken',
      'E. coli one above',
    ],
    [
      [
        [126, 34],
        [0, 0],
      ],
      'broken',
      'enterococci one above',
    ],
    [[[0, 0]], 'caution', 'only one result'],
    [[], 'caution', 'none'],
    [
      [
        [500, 90],
        [0, 0],
        [0, 0],
      ],
      'met',
      'a bad one before two good ones',
    ],
  ])('%j: %s, %s', (results, verdict) => {
    expect(tested(results)).toBe(verdict);
  });
  /** Two analyses of the tank's tea; the first says this of E. coli. */
  const written = (value: Quantity, analyte = 'E. coli', second = '05-06 20:00') => {
    const season = ordinary();
    for (const [code, day, reported] of [
      ['E-0', '05-02', '05-02 20:00'],
      ['E-1', '05-06', second],
    ] as const) {
      season.batch(code, `${day} 04:00`).filled(`${day} 05:00`).fed(`${day} 06:00`, 'C-1').fed(`${day} 06:05`, 'M-1');
      season.add('batch.sampled', `${day} 12:00`, { batchId: id(code), sampleId: id(`S ${code}`), takenFrom: 'tank' });
      season.add('batch.analysed', reported, {
        ...{ batchId: id(code), sampleId: id(`S ${code}`), laboratory: 'county laboratory' },
        results: [
          code === 'E-0' ? { analyte, value } : { analyte: 'E. coli', value: { value: 0, unit: '{CFU}/(100.mL)' } },
          { analyte: 'enterococci', value: { value: 0, unit: '{CFU}/(100.mL)' } },
        ],
      });
    }
    season.batch('T-14').filled('06-02 05:00').fed('06-02 06:00', 'C-1').fed('06-02 06:05', 'M-1');
    return outcomeOf(season.season(), 'additive-tested', 'T-14').outcome;
  };
  it.each<[Quantity, string, string]>([
    [{ value: 1.26, unit: '{CFU}/mL' }, 'met', '1.26 in a millilitre'],
    [{ value: 1.27, unit: '{CFU}/mL' }, 'broken', '1.27 in a millilitre'],
    [{ value: 126, unit: '{CFU}/dL' }, 'met', '126 in a decilitre'],
    [{ value: 127, unit: '{CFU}/dL' }, 'broken', '127 in a decilitre'],
    [{ value: 1260, unit: '{MPN}/L' }, 'met', '1,260 in a litre'],
    [{ value: 1270, unit: '{MPN}/L' }, 'broken', '1,270 in a litre'],
    [{ value: 12.7, unit: '{CFU}/(10.mL)' }, 'broken', '12.7 in 10 mL'],
    [{ value: 126, unit: '{CFU}' }, 'met', 'a bare count is one in 100 mL'],
    [{ value: 127, unit: '1' }, 'broken', 'and one above'],
    [{ value: 126, unit: '{CFU}/(100.mL)', qualifier: '<' }, 'met', 'below 126'],
    [{ value: 126, unit: '{CFU}/(100.mL)', qualifier: '>' }, 'broken', 'above 126'],
    [{ value: 127, unit: '{CFU}/(100.mL)', qualifier: '<' }, 'unknown', 'below 127 may be 126 or not'],
    [{ value: 1, unit: '{CFU}/g' }, 'unknown', 'in a gram: of no volume'],
  ])('%j: %s, %s', (value, verdict) => {
    expect(written(value)).toBe(verdict);
  });
  it.each([
    ['Escherichia coli', 'broken'],
    ['generic E. coli', 'broken'],
    ['total coliforms', 'unknown'],
  ])('1,000 of %s: %s', (analyte, verdict) => {
    expect(written({ value: 1000, unit: '{CFU}/(100.mL)' }, analyte)).toBe(verdict);
  });
  it('a result of another batch that came in after this one was begun is none for it', () => {
    const none = { value: 0, unit: '{CFU}/(100.mL)' };
    expect([written(none), written(none, 'E. coli', '06-03 20:00')]).toEqual(['met', 'caution']);
  });
  it('begins anew after a change of the system', () => {
    expect(
      tested(
        [
          [0, 0],
          [0, 0],
        ],
        true,
      ),
    ).toBe('caution');
  });
  /** Two good analyses of tea begun on 20 and 26 May at 09:00; the batch that is judged was begun on 2 June at 06:00. */
  const twoGood = (change: (season: SeasonBuilder) => unknown) => {
    const season = ordinary();
    const recipe = (edition: number, when: string) =>
      season.add('recipe.published', when, {
        ...{ recipeId: id('House tea'), edition, code: 'House tea', kind: 'aeratedTea', basisVolume: gal(300) },
        ingredients: [{ materialId: id('compost'), amount: lb(10) }],
      });
    recipe(1, '01-05 09:00');
    const brew = (code: string, when: string) =>
      season
        .batch(code, when, { recipeId: id('House tea') })
        .filled(when)
        .fed(when, 'C-1')
        .fed(when, 'M-1');
    for (const day of ['05-20', '05-26']) {
      brew(`E ${day}`, `${day} 09:00`);
      season.add('batch.analysed', `${day} 20:00`, {
        ...{ batchId: id(`E ${day}`), sampleId: id(`S ${day}`), laboratory: 'county laboratory' },
        results: ['E. coli', 'enterococci'].map((analyte) => ({
          ...{ analyte, value: { value: 0, unit: '{CFU}/(100.mL)' } },
        })),
      });
    }
    change(season);
    brew('T-14', '06-02 06:00');
    return outcomeOf(season.season(), 'additive-tested', 'T-14').outcome;
  };
  const tank = (when: string) => (season: SeasonBuilder) =>
    season.add('vessel.revised', when, { vesselId: id('Tote 2'), workingVolume: gal(280) });
  const edition = (when: string) => (season: SeasonBuilder) =>
    season.add('recipe.published', when, {
      ...{ recipeId: id('House tea'), edition: 2, code: 'House tea', kind: 'aeratedTea', basisVolume: gal(300) },
      ingredients: [{ materialId: id('compost'), amount: lb(12) }],
    });
  it.each<[string, string, (season: SeasonBuilder) => unknown]>([
    ['nothing changed', 'met', () => undefined],
    ['the tank changed in the minute in which the first of them was begun', 'met', tank('05-20 09:00')],
    ['the tank changed a minute later', 'caution', tank('05-20 09:01')],
    ['a new edition of the recipe in the minute in which the first was begun', 'met', edition('05-20 09:00')],
    ['a new edition between them', 'caution', edition('05-22 09:00')],
    ['a new edition in the minute in which this batch was begun', 'caution', edition('06-02 06:00')],
    ['a new edition after it', 'met', edition('06-02 06:01')],
  ])('two good results, %s: %s', (_, verdict, change) => {
    expect(twoGood(change)).toBe(verdict);
  });
  it('tea without additives is not asked', () => {
    const season = ordinary();
    season.batch('T-14').filled('06-02 05:00').fed('06-02 06:00', 'C-1');
    expect(outcomeOf(season.season(), 'additive-tested', 'T-14').outcome).toBe('notApplicable');
  });
});
