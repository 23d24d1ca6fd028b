import { describe, expect, it } from '@jest/globals';
import { judgeBatch } from '../engine/evaluate.ts';
import { acres, gal, id, instant, lb, ordinary, type Beside, type SeasonBuilder } from '../testing/season.ts';
import { outcomeOf } from '../testing/verdicts.ts';

/** Compost of the farm's own making from manure, in a pile that the records do not show to have been hot: raw manure. */
const manureTea = (
  season: SeasonBuilder,
  applied: string,
  field = 'North 4',
  more: object = {},
  beside: Beside = {},
) => {
  season
    .material('manure', { kind: 'other', animalOrigin: 'yes' })
    .lot('Man-1', 'manure', lb(1000))
    .material('yard compost', { animalOrigin: 'yes' });
  season.add('pile.started', '02-01 08:00', {
    pileId: id('P-1'),
    code: 'P-1',
    method: 'passive',
    inputs: [{ lotId: id('Man-1'), quantity: lb(500) }],
    carbonToNitrogen: 30,
  });
  season.add('pile.finished', '04-01 08:00', {
    pileId: id('P-1'),
    lotId: id('Y-1'),
    code: 'Y-1',
    materialId: id('yard compost'),
    quantity: lb(400),
  });
  season
    .batch('T-14', '04-30 04:00')
    .filled('04-30 05:00')
    .airOn('04-30 05:00')
    .fed('04-30 06:00', 'Y-1')
    .applied('A-1', applied, applied, field, gal(100), more, beside);
  return season;
};

describe('harvest-interval: 120 days where what is eaten touches the soil, 90 elsewhere (7 CFR 205.203(c)(1))', () => {
  const cut = (ediblePart: 'root' | 'tree' | 'leaf' | 'notForFood' | null, harvested: string) => {
    const season = ordinary();
    if (ediblePart !== null) season.planting('crop', 'North 4', { ediblePart });
    manureTea(season, '05-01 12:00');
    season.harvest('H-1', 'North 4', harvested, ediblePart === null ? {} : { plantingId: id('crop') });
    return outcomeOf(season.season(), 'harvest-interval', 'H-1');
  };
  it.each<[Parameters<typeof cut>[0], string, string, string]>([
    // 1 May + 120 days = 29 August; + 90 days = 30 July.
    ['root', '08-29 09:00', 'met', 'carrots after 120 days'],
    ['root', '08-28 09:00', 'broken', 'carrots after 119 days'],
    ['leaf', '08-28 09:00', 'broken', 'lettuce after 119 days'],
    ['tree', '07-30 09:00', 'met', 'apples after 90 days'],
    ['tree', '07-29 09:00', 'broken', 'apples after 89 days'],
    [null, '08-29 09:00', 'met', 'whatever it was, after 120 days'],
    [null, '08-01 09:00', 'unknown', 'an unnamed crop after 92 days'],
    [null, '07-29 09:00', 'broken', 'an unnamed crop after 89 days'],
    ['notForFood', '05-10 09:00', 'notApplicable', 'a cover crop'],
  ])('%s cut on %s is %s: %s', (part, harvested, verdict) => {
    expect(cut(part, harvested).outcome).toBe(verdict);
  });

  it('tea that went on from the minute of the harvest counts; what went on later does not', () => {
    const judged = (applied: string) => {
      const season = ordinary();
      manureTea(season, applied);
      season.harvest('H-1', 'North 4', '06-01 09:00', {});
      return outcomeOf(season.season(), 'harvest-interval', 'H-1').outcome;
    };
    expect([judged('06-01 09:00'), judged('06-01 09:01')]).toEqual(['broken', 'notApplicable']);
  });

  it.each([
    ['A-1', 'A-2'],
    ['A-2', 'A-1'],
    ['A-3', 'A-4'],
    ['A-4', 'A-3'],
  ])('of tea that went on twice, %s before %s, the earlier is named, and the other counted', (first, second) => {
    const season = manureTea(ordinary(), '05-01 12:00', 'North 4', { applicationId: id(first), code: first });
    season
      .batch('T-15', '05-02 04:00')
      .filled('05-02 05:00')
      .fed('05-02 06:00', 'Y-1')
      .applied(second, '05-03 12:00', '05-03 12:00', 'North 4', gal(100));
    season.harvest('H-1', 'North 4', '06-01 09:00');
    const { message } = outcomeOf(season.season(), 'harvest-interval', 'H-1');
    expect(message).toContain(`${first} went on this ground on 1 May 2026`);
    expect(message).toMatch(/1 more application/);
  });

  it('of an application onto a lot alone, with no ground under it, nothing is asked', () => {
    const season = manureTea(ordinary(), '05-01 12:00', 'North 4', { targets: [{ lotId: id('C-1') }] });
    expect(() => outcomeOf(season.season(), 'harvest-interval', 'A-1')).toThrow(/says nothing/);
  });

  it.each([
    // 120 days before 29 August is 1 May, 119 days 2 May.
    ['08-29 09:00', 'unknown'],
    ['08-30 09:00', 'met'],
    ['08-28 09:00', 'broken'],
  ])('tea that went on at about midnight, on 1 May or on 2 May, and carrots cut on %s: %s', (when, verdict) => {
    const season = ordinary().planting('carrots', 'North 4', { ediblePart: 'root' });
    manureTea(season, '05-01 23:50', 'North 4', {}, { plusMinusMinutes: 30 });
    season.harvest('H-1', 'North 4', when, { plantingId: id('carrots') });
    const { outcome, figures } = outcomeOf(season.season(), 'harvest-interval', 'H-1');
    const [least, most] = figures[0]?.range ?? [];
    expect(outcome).toBe(verdict);
    expect(most).toBe((least ?? NaN) + 1);
  });

  it.each([
    ['nothing', 'nothing', true],
    ['nothing', 'lettuce', true],
    ['lettuce', 'nothing', true],
    ['lettuce', 'lettuce', true],
    ['carrots', 'lettuce', false],
  ])(
    'tea put on %s, by what was written down, and a harvest of %s: it is shown beside the tea: %s',
    (on, cut, shown) => {
      const season = ordinary().planting('lettuce', 'North 4').planting('carrots', 'North 4', { ediblePart: 'root' });
      manureTea(season, '05-01 12:00', 'North 4', {
        targets: [{ fieldId: id('North 4'), ...(on === 'nothing' ? {} : { plantingId: id(on) }) }],
      });
      season.harvest('H-1', 'North 4', '06-01 09:00', cut === 'nothing' ? {} : { plantingId: id(cut) });
      const beside = judgeBatch(season.season(), id('T-14'), instant('06-10 00:00'));
      expect(beside.some(({ about }) => about.kind === 'harvest' && about.id === id('H-1'))).toBe(shown);
    },
  );

  it('goes by the ground: tea on a bed counts for a harvest of the whole field, and the other way round', () => {
    const season = ordinary().field('Bed 3', { kind: 'bed', parentId: id('North 4'), area: acres(0.1) });
    manureTea(season, '05-01 12:00', 'Bed 3');
    season.harvest('H-1', 'North 4', '06-01 09:00', {});
    expect(outcomeOf(season.season(), 'harvest-interval', 'H-1').outcome).not.toBe('met');
    const other = ordinary().field('Bed 3', { kind: 'bed', parentId: id('North 4'), area: acres(0.1) });
    manureTea(other, '05-01 12:00', 'North 4');
    other.harvest('H-1', 'Bed 3', '06-01 09:00', {});
    expect(outcomeOf(other.season(), 'harvest-interval', 'H-1').outcome).not.toBe('notApplicable');
  });

  it('a field beside it is not its ground', () => {
    const season = ordinary().field('South 1');
    manureTea(season, '05-01 12:00');
    season.harvest('H-1', 'South 1', '06-01 09:00');
    expect(outcomeOf(season.season(), 'harvest-interval', 'H-1').outcome).toBe('notApplicable');
  });

  it('tells before any harvest from when on the ground may be harvested', () => {
    const season = ordinary().planting('carrots', 'North 4', { ediblePart: 'root' });
    manureTea(season, '05-01 12:00');
    const at = (now: string) => outcomeOf(season.season(), 'harvest-interval', 'A-1', { now: instant(now) });
    expect(at('06-01 12:00')).toMatchObject({ outcome: 'due', dueAt: instant('08-29 00:00') });
    expect(at('08-29 00:00').outcome).toBe('met');
  });

  it.each([
    [120, '05-01 12:00', 0, 'broken'],
    [120.5, '05-01 12:00', 0, 'broken'],
    [121, '05-01 12:00', 0, 'broken'],
    // At about midnight: on 1 May or on 2 May.
    [120, '05-01 23:50', 30, 'unknown'],
  ])(
    'asked for %d days after %s ± %i min, a harvest on the day from which it may be is in order, one before it is not',
    (days, applied, plusMinusMinutes, before) => {
      const sprayed = () => {
        const season = ordinary().planting('carrots', 'North 4', { ediblePart: 'root' });
        season.adopted('04-01 00:00', [{ ruleId: 'harvest-interval', parameters: { soilContactDays: days } }]);
        return manureTea(season, applied, 'North 4', {}, { plusMinusMinutes });
      };
      const now = instant('06-01 12:00');
      const free = outcomeOf(sprayed().season(), 'harvest-interval', 'A-1', { now }).dueAt ?? NaN;
      const harvested = (when: number) => {
        const season = sprayed().harvest('H-1', 'North 4', new Date(when).toISOString());
        return outcomeOf(season.season(), 'harvest-interval', 'H-1').outcome;
      };
      expect([harvested(free), harvested(free - 1000)]).toEqual(['met', before]);
    },
  );

  it('plant compost with molasses and no tests waits by the guideline only', () => {
    const season = ordinary().planting('lettuce', 'North 4');
    season
      .batch('T-14')
      .filled('06-01 05:00')
      .airOn('06-01 05:00')
      .fed('06-01 06:00', 'C-1')
      .fed('06-01 06:00', 'M-1')
      .applied('A-1', '06-02 07:00', '06-02 08:00');
    season.harvest('H-1', 'North 4', '06-20 09:00', { plantingId: id('lettuce') });
    expect(outcomeOf(season.season(), 'harvest-interval', 'H-1')).toMatchObject({
      outcome: 'broken',
      basis: 'guideline',
      severity: 'minor',
    });
  });

  it.each([
    ['08-29 09:00', 'met', '120 days'],
    ['08-28 09:00', 'broken', '119 days'],
  ])('a harvest of %s that names no crop is of the one that stood there: %s after %s', (when, verdict) => {
    const season = ordinary().planting('carrots', 'North 4', { ediblePart: 'root' });
    manureTea(season, '05-01 12:00');
    season.harvest('H-1', 'North 4', when);
    expect(outcomeOf(season.season(), 'harvest-interval', 'H-1').outcome).toBe(verdict);
  });

  it.each([
    ['nothing', undefined, 'notApplicable'],
    ['compost of plants', 'C-1', 'notApplicable'],
    ['own compost of manure that was never hot', 'Y-1', 'broken'],
    ['a lot that nobody recorded', 'Unheard-1', 'unknown'],
  ])('a plain tea with %s mixed in at the sprayer waits as that asks', (_, mixed, verdict) => {
    const season = ordinary().field('South 1');
    // The tea of manure itself went onto another field.
    manureTea(season, '05-01 12:00', 'South 1');
    season
      .batch('T-15')
      .filled('06-01 05:00')
      .airOn('06-01 05:00')
      .fed('06-01 06:00', 'C-1')
      .applied('A-2', '06-02 07:00', '06-02 08:00', 'North 4', gal(100), {
        ...(mixed === undefined ? {} : { tankMix: [{ lotId: id(mixed), quantity: lb(5) }] }),
      });
    season.harvest('H-1', 'North 4', '06-20 09:00');
    expect(outcomeOf(season.season(), 'harvest-interval', 'H-1').outcome).toBe(verdict);
  });

  describe('bought compost of manure, used on 2 June and harvested over on 20 June', () => {
    const bought = (
      paper: (season: SeasonBuilder) => unknown,
      kind: 'compost' | 'vermicompost' | 'other' | 'extract' = 'compost',
    ) => {
      const season = ordinary().planting('lettuce', 'North 4');
      season.material('bought', { kind, animalOrigin: 'yes', microbialFood: 'no' }).lot('B-1', 'bought');
      paper(season);
      season.batch('T-14').filled('06-02 05:00').fed('06-02 06:00', 'B-1').applied('A-1', '06-03 07:00', '06-03 08:00');
      season.harvest('H-1', 'North 4', '06-20 09:00');
      return outcomeOf(season.season(), 'harvest-interval', 'H-1').outcome;
    };
    type Covers = 'treatment' | 'analysis' | 'label';
    const documented = (covers: Covers, from: string, until?: string) => (season: SeasonBuilder) =>
      season.add('material.documented', '06-01 09:00', {
        ...{ materialId: id('bought'), covers, from },
        ...(until === undefined ? {} : { until }),
      });
    // How long a paper without an end counts is common practice, no source.
    it.each<[Covers, string, string | undefined, string, string]>([
      ['treatment', '2025-06-02', undefined, 'notApplicable', 'for 365 days'],
      ['treatment', '2025-06-01', undefined, 'unknown', 'and not a day longer'],
      ['treatment', '2026-06-02', undefined, 'notApplicable', 'from that day on'],
      ['treatment', '2026-06-03', undefined, 'unknown', 'not before'],
      ['treatment', '2024-01-01', '2026-06-02', 'notApplicable', 'up to the end that it gives'],
      ['treatment', '2026-01-01', '2026-06-01', 'unknown', 'no longer'],
      ['analysis', '2026-01-01', undefined, 'unknown', 'an analysis tells nothing of how it was composted'],
      ['label', '2026-01-01', undefined, 'unknown', 'nor does a label'],
    ])('a paper of its %s from %s until %s: %s, %s', (covers, from, until, verdict) => {
      expect(bought(documented(covers, from, until))).toBe(verdict);
    });
    it('is asked for its paper as compost, worm compost and unspecified matter; an extract of fish is no manure', () => {
      const without = (kind: 'compost' | 'vermicompost' | 'other' | 'extract') => bought(() => undefined, kind);
      expect([without('compost'), without('vermicompost'), without('other'), without('extract')]).toEqual([
        ...['unknown', 'unknown', 'unknown', 'notApplicable'],
      ]);
    });
    it.each<['certifier' | 'reviewBody' | 'operation', string, string | undefined, string]>([
      ['certifier', '2026-06-02', undefined, 'notApplicable'],
      ['certifier', '2026-06-03', undefined, 'unknown'],
      ['reviewBody', '2026-01-01', '2026-06-02', 'notApplicable'],
      ['reviewBody', '2026-01-01', '2026-06-01', 'unknown'],
      ['operation', '2026-01-01', undefined, 'unknown'],
    ])('without a paper, approved by %s from %s until %s: %s', (by, from, until, verdict) => {
      expect(bought((season) => season.approved('bought', from, until, { by }))).toBe(verdict);
    });
    it.each<['certifier' | 'reviewBody', string, string]>([
      ['certifier', '2026-06-02', 'unknown'],
      ['certifier', '2026-06-03', 'notApplicable'],
      ['reviewBody', '2026-06-02', 'notApplicable'],
    ])('approved by the certifier in January, withdrawn by %s from %s: %s', (by, from, verdict) => {
      const withdrawn = (season: SeasonBuilder) => {
        season.approved('bought', '2026-01-01');
        season.add('material.withdrawn', '05-20 09:00', { materialId: id('bought'), by, reference: 'letter', from });
      };
      expect(bought(withdrawn)).toBe(verdict);
    });
  });

  it('an additive asks for the days whether or not the compost beside it has its papers', () => {
    const season = ordinary().planting('lettuce', 'North 4');
    season.material('dung', { animalOrigin: 'yes' }).lot('D-1', 'dung');
    season
      .batch('T-14')
      .filled('06-01 05:00')
      .airOn('06-01 05:00')
      .fed('06-01 06:00', 'D-1')
      .fed('06-01 06:00', 'M-1')
      .applied('A-1', '06-02 07:00', '06-02 08:00');
    season.harvest('H-1', 'North 4', '06-20 09:00');
    const { outcome, basis, message } = outcomeOf(season.season(), 'harvest-interval', 'H-1');
    expect({ outcome, basis }).toEqual({ outcome: 'broken', basis: 'guideline' });
    expect(message).toMatch(/no record shows how dung was composted/);
  });
});

describe('harvest-organic: 36 months since the last prohibited substance (7 CFR 205.202(b))', () => {
  const sold = (lastProhibitedOn: string, soldAs: 'organic' | 'transition' = 'organic') => {
    const season = ordinary().field('East', { lastProhibitedOn });
    season.harvest('H-1', 'East', '07-14 09:00', { soldAs });
    return outcomeOf(season.season(), 'harvest-organic', 'H-1').outcome;
  };
  it.each([
    ['2023-07-14', 'met', 'three years to the day'],
    ['2023-07-15', 'broken', 'a day short of three years'],
  ])('harvested on 14 July 2026, last sprayed on %s: %s, %s', (last, verdict) => {
    expect(sold(last)).toBe(verdict);
  });
  // 37 months after 14 June 2023 are 14 July 2026; 120,000 months are ten thousand years.
  it.each([
    [36.5, '2023-06-14', 'met'],
    [36.5, '2023-06-15', 'broken'],
    [120_000, '1990-01-01', 'broken'],
  ])('an operation that asks itself for %d months, last sprayed on %s: %s', (months, lastProhibitedOn, verdict) => {
    const season = ordinary().field('East', { lastProhibitedOn });
    season.adopted('05-01 00:00', [{ ruleId: 'harvest-organic', parameters: { months } }]);
    season.harvest('H-1', 'East', '07-14 09:00');
    expect(outcomeOf(season.season(), 'harvest-organic', 'H-1').outcome).toBe(verdict);
  });
  it.each([
    ['07-14 09:00', 'broken', 'in the minute of the harvest'],
    ['07-14 09:01', 'met', 'later'],
  ])('a substance that the register names from %s: %s, %s', (revised, verdict) => {
    const season = ordinary();
    season.add('field.revised', revised, { fieldId: id('North 4'), lastProhibitedOn: '2026-01-01' });
    season.harvest('H-1', 'North 4', '07-14 09:00', { soldAs: 'organic' });
    expect(outcomeOf(season.season(), 'harvest-organic', 'H-1').outcome).toBe(verdict);
  });
  it('rests on the record that names the substance: the registration that counts, or the revision', () => {
    const season = ordinary().field('East');
    const again = { fieldId: id('East'), code: 'East', kind: 'field', landStatus: 'organic' } as const;
    const registered = season.add('field.registered', '02-01 08:00', { ...again, lastProhibitedOn: '2026-01-01' });
    season.harvest('H-1', 'East', '07-14 09:00');
    const harvest = season.records.at(-1)?.id;
    const ids = () => outcomeOf(season.season(), 'harvest-organic', 'H-1').recordIds;
    season.add('field.revised', '04-01 09:00', { fieldId: id('East'), code: 'East 1' });
    expect(ids()).toEqual([harvest, registered]);
    const revised = season.add('field.revised', '05-01 09:00', { fieldId: id('East'), lastProhibitedOn: '2026-02-01' });
    expect(ids()).toEqual([harvest, registered, revised]);
  });
  it('does not ask about what is not sold as organic', () => {
    expect(sold('2026-01-01', 'transition')).toBe('notApplicable');
  });
  it('a herbicide on a bed counts for the harvest of the field around it', () => {
    const season = ordinary().field('Bed 3', { kind: 'bed', parentId: id('North 4'), area: acres(0.1) });
    season.add('field.exposed', '05-01 08:00', { fieldId: id('Bed 3'), substance: 'herbicide', how: 'applied' });
    season.harvest('H-1', 'North 4', '07-14 09:00');
    expect(outcomeOf(season.season(), 'harvest-organic', 'H-1').outcome).toBe('broken');
  });
  it('drift is for the certifier to judge', () => {
    const season = ordinary();
    season.add('field.exposed', '05-01 08:00', { fieldId: id('North 4'), substance: 'herbicide', how: 'drift' });
    season.harvest('H-1', 'North 4', '07-14 09:00');
    const drifted = outcomeOf(season.season(), 'harvest-organic', 'H-1');
    expect(drifted.outcome).toBe('unknown');
    expect(drifted.message).toContain('Herbicide drifted onto North 4');
  });
  it('says what was applied where, and from when the ground is free', () => {
    const season = ordinary();
    season.add('field.exposed', '05-01 08:00', { fieldId: id('North 4'), substance: 'herbicide', how: 'applied' });
    season.harvest('H-1', 'North 4', '07-14 09:00');
    const { message, figures } = outcomeOf(season.season(), 'harvest-organic', 'H-1');
    expect(message).toContain('Herbicide was applied to North 4');
    expect(figures).toEqual([
      { name: 'freeFrom', value: '2029-05-01' },
      { name: 'harvestedOn', value: '2026-07-14' },
    ]);
  });
  it('what was sprayed after the harvest does not reach back', () => {
    const season = ordinary();
    season.harvest('H-1', 'North 4', '07-14 09:00');
    season.add('field.exposed', '07-15 08:00', { fieldId: id('North 4'), substance: 'herbicide', how: 'applied' });
    expect(outcomeOf(season.season(), 'harvest-organic', 'H-1').outcome).toBe('met');
  });
  it('of a field that nobody registered it cannot be told', () => {
    const season = ordinary();
    season.harvest('H-1', 'South 9', '07-14 09:00');
    expect(outcomeOf(season.season(), 'harvest-organic', 'H-1').outcome).toBe('unknown');
  });
  it('a field in transition does not give organic goods', () => {
    const season = ordinary().field('New', { landStatus: 'transition' });
    season.harvest('H-1', 'New', '07-14 09:00');
    expect(outcomeOf(season.season(), 'harvest-organic', 'H-1').outcome).toBe('broken');
  });
});

describe('notify-certifier: told at once (7 CFR 205.400(f))', () => {
  const told = (when?: string) => {
    const season = ordinary();
    season.add('field.exposed', '05-01 08:00', { fieldId: id('North 4'), substance: 'herbicide', how: 'drift' });
    if (when !== undefined) season.add('certifier.notified', when, { about: [id('North 4')], how: 'telephone' });
    return season.season();
  };
  it.each<[string | undefined, string, string]>([
    ['05-02 08:00', 'met', 'within exactly 24 h'],
    ['05-02 08:01', 'broken', 'a minute later'],
    [undefined, 'broken', 'never'],
  ])('drift at 08:00 on 1 May, certifier told at %s: %s, %s', (when, verdict) => {
    expect(outcomeOf(told(when), 'notify-certifier', 'North 4').outcome).toBe(verdict);
  });
  it('a word sent before it happened is not about it', () => {
    expect(outcomeOf(told('04-30 08:00'), 'notify-certifier', 'North 4').outcome).toBe('broken');
  });
  it('is due while the day lasts', () => {
    const outcome = outcomeOf(told(), 'notify-certifier', 'North 4', { now: instant('05-01 12:00') });
    expect(outcome).toMatchObject({ outcome: 'due', dueAt: instant('05-02 08:00') });
  });
});

describe('field-located: each growing area on the map (21 CFR 1.1315(a)(5))', () => {
  const square = {
    type: 'Polygon' as const,
    coordinates: [
      [
        [-74.2, 42.1],
        [-74.198, 42.1],
        [-74.198, 42.1016],
        [-74.2, 42.1016],
        [-74.2, 42.1],
      ],
    ],
  };
  it('a harvested field without a boundary cannot be found', () => {
    const season = ordinary();
    season.harvest('H-1', 'North 4', '07-14 09:00');
    expect(outcomeOf(season.season(), 'field-located', 'North 4').outcome).toBe('unknown');
  });
  it('the boundary of the field around a bed serves the bed', () => {
    const season = ordinary()
      .field('West', { boundary: square })
      .field('Bed 1', { kind: 'bed', parentId: id('West') });
    season.harvest('H-1', 'Bed 1', '07-14 09:00');
    expect(outcomeOf(season.season(), 'field-located', 'Bed 1').outcome).toBe('met');
  });
  it('is not asked where the traceability list is not among the regimes', () => {
    const season = ordinary({ regimes: ['us-organic'] });
    expect(() => outcomeOf(season.season(), 'field-located', 'North 4')).toThrow(/says nothing/);
  });
});
