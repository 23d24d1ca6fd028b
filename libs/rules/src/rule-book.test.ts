import { describe, expect, it } from '@jest/globals';
import {
  allDue,
  notSwitchedOn,
  previewRuleBook,
  ruleBookAt,
  ruleBookView,
  starterEntries,
  starterRuleIds,
} from './index.ts';
import { gal, id, instant, lb, ordinary, type SeasonBuilder } from './testing/season.ts';
import { drawOutcomes, outcomeOf } from './testing/verdicts.ts';

const held = (season: SeasonBuilder, until = '06-03 14:00') => {
  season
    .batch('T-14')
    .filled('06-02 05:00')
    .airOn('06-02 05:00')
    .fed('06-02 06:00', 'C-1')
    .airOff('06-03 06:30')
    .checked('06-03 07:00')
    .applied('A-1', '06-03 07:30', until);
  return season;
};
const hold = (season: SeasonBuilder) => drawOutcomes(season.season(), 'hold-maximum', 'T-14')[0];
const limits = { ruleId: 'hold-maximum' };

describe('rule book in force', () => {
  it('built-in limits hold until something else is adopted', () => {
    expect(hold(held(ordinary()))).toMatchObject({ ruleBookSeq: null, figures: [{ advised: 6, limit: 8 }] });
  });

  it('an entry overrides what it names, and what an earlier one named stays', () => {
    const season = ordinary()
      .adopted('05-01 00:00', [{ ...limits, parameters: { advisedHours: 5 }, severity: 'major' }])
      .adopted('05-02 00:00', [{ ...limits, parameters: { limitHours: 7 } }]);
    const second = season.records.length - 1;
    expect(hold(held(season))).toMatchObject({
      outcome: 'broken',
      severity: 'major',
      ruleBookSeq: second,
      figures: [{ advised: 5, limit: 7 }],
    });
  });

  it('an adoption that names other rules leaves the seq of this one', () => {
    const season = ordinary()
      .adopted('05-01 00:00', [{ ...limits, parameters: { limitHours: 7 } }])
      .adopted('05-02 00:00', [{ ruleId: 'brew-minimum', parameters: { limitHours: 18 } }]);
    const first = season.records.findIndex((record) => record.type === 'ruleBook.adopted');
    expect(hold(held(season))?.ruleBookSeq).toBe(first);
  });

  it('of two effective from the same instant the later in the order of records counts, whichever arrived first', () => {
    const season = ordinary();
    season.adopted('05-01 00:00', [{ ...limits, parameters: { limitHours: 10 } }], { when: '04-20 09:00' });
    season.adopted('05-01 00:00', [{ ...limits, parameters: { limitHours: 7 } }], { when: '04-10 09:00' });
    expect(hold(held(season))?.figures[0]).toMatchObject({ limit: 10 });
  });

  it('what the system plan promises binds: other words, other basis', () => {
    const season = held(ordinary().adopted('05-01 00:00', [{ ...limits, inSystemPlan: true }]), '06-03 15:00');
    const outcome = hold(season);
    expect(outcome).toMatchObject({ outcome: 'broken', basis: 'ownPlan' });
    expect(outcome?.message).toMatch(/^Not as the system plan promises\. /);
  });

  it('a regulation stays one although the plan names it too', () => {
    const season = ordinary()
      .adopted('05-01 00:00', [{ ruleId: 'harvest-organic', inSystemPlan: true }])
      .field('East', { lastProhibitedOn: '2026-01-01' });
    season.harvest('H-1', 'East', '07-14 09:00');
    expect(outcomeOf(season.season(), 'harvest-organic', 'H-1').basis).toBe('regulation');
  });

  it('a rule switched off does not apply, from its effective time on', () => {
    const off = (from: string) => hold(held(ordinary().adopted(from, [{ ...limits, enabled: false }]), '06-03 20:00'));
    expect(off('05-01 00:00')).toMatchObject({
      outcome: 'notApplicable',
      message: 'Switched off in the rule book in force.',
      figures: [],
      recordIds: [],
    });
    expect(off('06-10 00:00')?.outcome).toBe('broken');
  });
  it('a rule switched off asks for nothing where it would be due', () => {
    const aerating = (enabled: boolean) => {
      const season = ordinary().source('Town', { kind: 'municipal', disinfectant: 'chlorine' });
      season.adopted('05-01 00:00', [{ ruleId: 'chlorine-dissipated', enabled }]);
      season.batch('T-14').filled('06-02 05:00', gal(250), 'Town').airOn('06-02 05:02');
      return outcomeOf(season.season(), 'chlorine-dissipated', 'T-14', { now: instant('06-02 05:10') });
    };
    expect(aerating(true)).toMatchObject({ outcome: 'due', dueAt: instant('06-02 05:22') });
    const off = aerating(false);
    expect(off.outcome).toBe('notApplicable');
    expect(off).not.toHaveProperty('dueAt');
    expect(off).not.toHaveProperty('due');
  });

  describe('switched off for a part of what a rule judges', () => {
    const used = (from: string, until?: string) => {
      const season = ordinary().material('kelp', { kind: 'nutrient' }).lot('K-1', 'kelp');
      season.adopted(from, [{ ruleId: 'input-approved', enabled: false }]);
      if (until !== undefined) season.adopted(until, [{ ruleId: 'input-approved', enabled: true }]);
      season.batch('T-14', '06-01 04:00').filled('06-01 05:00').fed('06-01 06:00', 'K-1', lb(1));
      season.batch('T-15', '06-15 04:00').filled('06-15 05:00').fed('06-15 06:00', 'K-1', lb(1));
      return outcomeOf(season.season(), 'input-approved', 'K-1');
    };
    // Nobody approved the kelp; it went in on 1 June and on 15 June.
    it.each<[string, string | undefined, string | null]>([
      ['05-01 00:00', '06-10 00:00', 'T-15 on 15 June'],
      ['06-10 00:00', undefined, 'T-14 on 1 June'],
      ['06-10 00:00', '06-12 00:00', 'T-14 on 1 June'],
      ['05-01 00:00', undefined, null],
    ])('off from %s until %s: what was used while it was on is told: %s', (from, until, named) => {
      const { outcome, message } = used(from, until);
      expect(outcome).toBe(named === null ? 'notApplicable' : 'broken');
      expect(message).toContain(named ?? 'Switched off in the rule book in force.');
      // Of both uses only where the rule was on for both.
      expect(message.includes('1 more use')).toBe(until === '06-12 00:00');
    });

    const brewing = (book: (season: SeasonBuilder) => unknown) => {
      const season = ordinary();
      book(season);
      season
        .batch('T-14')
        .filled('06-02 05:00')
        .airOn('06-02 05:00')
        .fed('06-02 06:00', 'C-1')
        .oxygen('06-03 05:00', 4)
        .oxygen('06-03 08:00', 7);
      return season.season();
    };
    const switched = (ruleId: string, from: string, enabled: boolean) => (season: SeasonBuilder) =>
      season.adopted(from, [{ ruleId, enabled }]);
    // 23 h without a reading, then 3 h; the next one is due 12 h after the last.
    it.each<[string, string, boolean, (season: SeasonBuilder) => unknown]>([
      ['on throughout', 'broken', true, () => undefined],
      ['off throughout', 'notApplicable', false, switched('oxygen-checked', '05-01 00:00', false)],
      ['off after the first reading', 'broken', false, switched('oxygen-checked', '06-03 05:00', false)],
      [
        'off until the first reading',
        'due',
        true,
        (season) => {
          switched('oxygen-checked', '05-01 00:00', false)(season);
          switched('oxygen-checked', '06-03 05:00', true)(season);
        },
      ],
    ])('looking at the oxygen, %s: %s; another reading is asked for: %s', (_, verdict, asked, book) => {
      const open = brewing(book);
      const now = instant('06-03 09:00');
      expect(outcomeOf(open, 'oxygen-checked', 'T-14', { now, kind: 'batch' }).outcome).toBe(verdict);
      const next = allDue(open, id('T-14'), now).filter(({ ruleId }) => ruleId === 'oxygen-checked');
      expect(next.map(({ at }) => at)).toEqual(asked ? [instant('06-03 20:00')] : []);
    });
    it('the lowest oxygen is that of the readings taken while the rule was on', () => {
      const open = brewing((season) => {
        switched('oxygen-minimum', '05-01 00:00', false)(season);
        switched('oxygen-minimum', '06-03 06:00', true)(season);
      });
      const { outcome, message, figures } = outcomeOf(open, 'oxygen-minimum', 'T-14');
      expect(outcome).toBe('met');
      expect(message).toContain('7 mg/L');
      expect(message).not.toContain('4 mg/L');
      expect(figures.map(({ value }) => value)).toEqual([7]);
    });
    it('records written down late while the rule was off are neither counted nor shown', () => {
      const season = ordinary().adopted('05-01 00:00', [{ ruleId: 'record-timely', enabled: false }]);
      season.adopted('06-02 12:00', [{ ruleId: 'record-timely', enabled: true }]);
      const batch = season.batch('T-14', '06-02 04:00').filled('06-02 05:00').fed('06-02 06:00', 'C-1');
      batch.oxygen('06-02 08:00', 7, {}, { enteredAt: '06-04 08:00' }).oxygen('06-02 12:00', 7);
      const timely = () => outcomeOf(season.season(), 'record-timely', 'T-14');
      expect(timely()).toMatchObject({ outcome: 'met', said: { key: 'record-timely.one' } });
      batch.oxygen('06-02 13:00', 7, {}, { enteredAt: '06-03 13:00' });
      expect(timely()).toMatchObject({ outcome: 'broken', figures: [{ name: 'hoursUntilWritten', value: 24 }] });
    });
  });

  it('a parameter that cannot be has no effect, its neighbours have', () => {
    const season = ordinary().adopted('05-01 00:00', [
      { ...limits, parameters: { limitHours: 'seven', advisedHours: 5, nonsense: 1 } },
    ]);
    expect(hold(held(season))?.figures[0]).toMatchObject({ advised: 5, limit: 8 });
  });

  it('a batch judged by the book of June is not rewritten by the book of July', () => {
    const season = held(ordinary());
    const before = hold(season);
    season.adopted('07-01 00:00', [{ ...limits, parameters: { limitHours: 2 } }]);
    expect(hold(season)).toEqual(before);
  });

  it('is shown with every rule, its parameters, their units, defaults and what they are', () => {
    const season = ordinary().adopted('05-01 00:00', [
      { ...limits, parameters: { limitHours: 7 }, inSystemPlan: true },
    ]);
    const view = ruleBookView(season.season(), instant('06-01 00:00'));
    expect(view).toMatchObject({ effectiveFrom: '2026-05-01T05:00:00.000Z', seq: season.records.length - 1 });
    expect(view.rules.find((rule) => rule.ruleId === 'hold-maximum')).toMatchObject({
      basis: 'ownPlan',
      inSystemPlan: true,
      parameters: {
        limitHours: { value: 7, unit: 'h', default: 8, description: 'Longest hold time that you accept.' },
      },
    });
    expect(ruleBookView(season.season(), instant('04-01 00:00'))).toMatchObject({ seq: null, effectiveFrom: null });
  });

  // 7 CFR 205.203(c)(1) asks for 120 days; 205.203(c)(2) for 170 °F at most. How long tea is held no regulation tells.
  it.each([
    ['harvest-interval', 'soilContactDays', 'atLeast'],
    ['compost-organic', 'mostF', 'atMost'],
    ['hold-maximum', 'limitHours', undefined],
  ])('of %s, %s says on which side a regulation holds it: %s', (ruleId, name, regulation) => {
    const { rules } = ruleBookView(ordinary().season(), instant('06-01 00:00'));
    const parameter = rules.find((rule) => rule.ruleId === ruleId)?.parameters[name];
    expect(parameter?.regulation).toBe(regulation);
  });

  it('gives the limits of one rule at an instant', () => {
    const season = ordinary()
      .adopted('05-01 00:00', [{ ...limits, parameters: { limitHours: 7 } }])
      .season();
    expect(ruleBookAt(season, instant('04-30 23:59')).get('hold-maximum')?.parameters).toMatchObject({ limitHours: 8 });
    expect(ruleBookAt(season, instant('05-01 00:00')).get('hold-maximum')?.parameters).toMatchObject({ limitHours: 7 });
  });

  it('an entry may call a parameter anything, `constructor` included', () => {
    const season = held(
      ordinary().adopted('05-01 00:00', [{ ...limits, parameters: { constructor: 1, toString: 2 } }]),
    );
    expect(hold(season)?.outcome).toBe('caution');
  });

  it('the defaults are those of the trade (common practice, no source)', () => {
    const rules = ruleBookView(ordinary().season(), instant('06-01 00:00')).rules;
    const defaults = (ruleId: string) =>
      Object.fromEntries(
        Object.entries(rules.find((rule) => rule.ruleId === ruleId)?.parameters ?? {}).map(([name, p]) => [
          name,
          p.default,
        ]),
      );
    expect(defaults('brew-minimum')).toEqual({ advisedHours: 24, limitHours: 20 });
    expect(defaults('hold-maximum')).toEqual({ advisedHours: 6, limitHours: 8, checkAfterHours: 2 });
    expect(defaults('air-continuous')).toEqual({ advisedMinutes: 15, limitMinutes: 60 });
    expect(defaults('oxygen-minimum')).toEqual({ minimumMgPerL: 6, correctedMinutes: 60 });
    expect(defaults('oxygen-checked')).toEqual({ advisedHours: 12, limitHours: 16, beforeDrawHours: 4 });
    expect(defaults('chlorine-dissipated')).toEqual({ advisedMinutes: 20, limitMinutes: 15, limitMgPerL: 0.1 });
    expect(defaults('source-tested')).toMatchObject({ validDays: 365 });
  });
});

describe('trying a rule book out', () => {
  it('lists the outcomes that would differ and counts the rest', () => {
    const season = held(ordinary());
    const { changed, unchanged } = previewRuleBook(
      season.season(),
      [{ ...limits, parameters: { limitHours: 7 } }],
      {},
      instant('07-01 00:00'),
    );
    expect(changed).toEqual([
      {
        batchId: id('T-14'),
        ruleId: 'hold-maximum',
        about: expect.objectContaining({ kind: 'draw', code: 'T-14 · North 4' }),
        before: 'caution',
        after: 'broken',
      },
    ]);
    expect(unchanged).toBe(0);
  });
  it('counts each load that comes out as before', () => {
    const season = held(ordinary());
    for (const code of ['T-15', 'T-16'])
      season
        .batch(code)
        .filled('06-02 05:00')
        .airOn('06-02 05:00')
        .fed('06-02 06:00', 'C-1')
        .airOff('06-03 06:30')
        .applied(`A ${code}`, '06-03 07:00', '06-03 08:00');
    const tried = previewRuleBook(
      season.season(),
      [{ ...limits, parameters: { limitHours: 7 } }],
      {},
      instant('07-01 00:00'),
    );
    expect([tried.changed.length, tried.unchanged]).toEqual([1, 2]);
  });
  it('outranks what was adopted later, and leaves batches of other times alone', () => {
    const season = held(ordinary()).adopted('06-01 00:00', [{ ...limits, parameters: { limitHours: 9 } }], {
      when: '05-20 09:00',
    });
    const tried = (from: string, to: string) =>
      previewRuleBook(
        season.season(),
        [{ ...limits, parameters: { limitHours: 7 } }],
        { from: instant(from), to: instant(to) },
        instant('07-01 00:00'),
      );
    expect(tried('06-01 00:00', '06-30 00:00').changed).toHaveLength(1);
    expect(tried('04-01 00:00', '05-30 00:00').changed).toHaveLength(0);
    // The last thing that happened to the batch was the spraying, until 14:00 on 3 June.
    expect(tried('06-03 14:00', '06-30 00:00').changed).toHaveLength(1);
    expect(tried('06-03 14:01', '06-30 00:00').changed).toHaveLength(0);
  });
});

describe('the first week', () => {
  it('five rules, and a list of what is not switched on', () => {
    const season = ordinary().adopted('05-01 00:00', [...starterEntries()]);
    expect(starterRuleIds).toHaveLength(5);
    const off = notSwitchedOn(season.season(), instant('06-01 00:00'));
    expect(off.map(({ ruleId }) => ruleId)).toContain('oxygen-minimum');
    expect(off.map(({ ruleId }) => ruleId)).not.toContain('hold-maximum');
  });
  it('rules of a regime that was not chosen are named as such, and not judged', () => {
    const season = ordinary({ regimes: ['us-organic'] });
    expect(notSwitchedOn(season.season(), instant('06-01 00:00'))).toContainEqual(
      expect.objectContaining({ ruleId: 'contact-allowed', why: 'regime not chosen' }),
    );
  });
});

describe('the farm under the produce rule', () => {
  const judged = (farmStatus?: string) => {
    const season = ordinary(farmStatus === undefined ? {} : { farmStatus });
    season.batch('T-14').filled('06-02 05:00');
    return () => outcomeOf(season.season(), 'source-tested', 'T-14');
  };
  it('a covered farm, and one of unknown standing, are held to it; an exempt one and one not covered are not', () => {
    expect(judged('covered')().outcome).toBe('met');
    expect(judged()().outcome).toBe('met');
    expect(judged('qualified exempt')).toThrow(/says nothing/);
    expect(judged('not covered')).toThrow(/says nothing/);
  });
});

describe("the certifier's ruling as what stands behind a limit", () => {
  const ruled = (kind: 'ruling' | 'request' = 'ruling') => {
    const season = ordinary();
    const letter = season.add('certifier.wrote', '04-02 09:00', {
      reference: 'L-17',
      kind,
      text: 'Hold no longer than 4 h.',
    });
    season.adopted('05-01 00:00', [{ ...limits, parameters: { limitHours: 4 }, certifierReference: 'L-17' }]);
    return { season, letter };
  };
  it('a limit that a ruling asks for speaks of the ruling', () => {
    const outcome = hold(held(ruled().season, '06-03 12:00'));
    expect(outcome).toMatchObject({ outcome: 'broken', basis: 'certifier', figures: [{ limit: 4 }] });
    expect(outcome?.message).toMatch(/^Against the certifier's ruling\. /);
  });
  it('the ruling outranks the system plan, and the rule book names it', () => {
    const { season } = ruled();
    season.adopted('05-02 00:00', [{ ...limits, inSystemPlan: true }]);
    expect(hold(held(season, '06-03 12:00'))?.basis).toBe('certifier');
    const rule = ruleBookView(season.season(), instant('06-01 00:00')).rules.find(
      (each) => each.ruleId === 'hold-maximum',
    );
    expect(rule).toMatchObject({ basis: 'certifier', certifierReference: 'L-17' });
  });
  it('before the adoption holds, and once the operation sets the limit itself, the rule is practice again', () => {
    const { season } = ruled();
    season.adopted('06-01 00:00', [{ ...limits, parameters: { limitHours: 5 } }]);
    expect(hold(held(season, '06-03 13:00'))).toMatchObject({ outcome: 'broken', basis: 'practice' });
    const view = ruleBookView(season.season(), instant('04-15 00:00')).rules.find(
      ({ ruleId }) => ruleId === 'hold-maximum',
    );
    expect(view).toMatchObject({ basis: 'practice', certifierReference: null });
  });
  it('a letter that is no ruling, one that is not on record or one that was struck gives no ruling, and is named', () => {
    const named = (season: SeasonBuilder) => outcomeOf(season.season(), 'rule-book-adopted', 'operation');
    const unknown = ordinary().adopted('05-01 00:00', [
      { ...limits, parameters: { limitHours: 4 }, certifierReference: 'L-99' },
    ]);
    const { season: struck, letter } = ruled();
    struck.struck(letter, 'certifier.wrote', '05-03 09:00');
    for (const season of [unknown, struck, ruled('request').season]) {
      expect(named(season)).toMatchObject({ outcome: 'caution' });
      expect(named(season).message).toContain('a ruling of the certifier that is not on record: L-');
      expect(hold(held(season, '06-03 12:00'))).toMatchObject({ outcome: 'broken', basis: 'practice' });
    }
    expect(named(ruled().season).outcome).toBe('met');
  });
});

describe('a rule book that asks for less than a regulation', () => {
  const judged = (season: SeasonBuilder) => outcomeOf(season.season(), 'rule-book-adopted', 'operation');
  const adopting = (entry: Parameters<SeasonBuilder['adopted']>[1][number], season = ordinary()) =>
    judged(season.adopted('05-01 00:00', [entry]));
  // 7 CFR 205.203(c)(1): 120 days where the edible part touches the soil, else 90. 205.202(b): 3 years. 205.203(c)(2):
  // C:N between 25:1 and 40:1, 131 to 170 °F. 21 CFR 112.43: assessed at least once a year.
  it.each<[string, Record<string, number>, string]>([
    [
      'harvest-interval',
      { soilContactDays: 119 },
      'soilContactDays is 119 d where the regulation asks for at least 120 d',
    ],
    ['harvest-interval', { otherDays: 60 }, 'otherDays is 60 d where the regulation asks for at least 90 d'],
    ['harvest-organic', { months: 35 }, 'months is 35 mo where the regulation asks for at least 36 mo'],
    ['compost-organic', { mostCarbonToNitrogen: 45 }, 'at most 40'],
    ['compost-organic', { leastF: 120 }, 'at least 131'],
    ['compost-produce', { windrowTurnings: 4 }, 'at least 5'],
    ['source-suitable', { assessmentDays: 730 }, 'at most 365'],
  ])('%s with %j is shown, and the regulation still binds', (ruleId, parameters, words) => {
    const outcome = adopting({ ruleId, parameters });
    expect(outcome).toMatchObject({ outcome: 'caution', basis: 'practice' });
    expect(outcome.message).toContain(words);
    expect(outcome.message).toContain('The regulation still binds');
  });
  it('switched off, or of lower weight', () => {
    expect(adopting({ ruleId: 'harvest-interval', enabled: false }).message).toContain(
      'harvest-interval is switched off',
    );
    expect(adopting({ ruleId: 'contact-allowed', severity: 'notice' }).message).toContain(
      'contact-allowed counts as notice instead of critical',
    );
  });
  it.each<[string, Parameters<SeasonBuilder['adopted']>[1][number]]>([
    ['the same figure', { ruleId: 'harvest-interval', parameters: { soilContactDays: 120, otherDays: 90 } }],
    ['more than is asked', { ruleId: 'harvest-interval', parameters: { soilContactDays: 150 }, severity: 'critical' }],
    ['practice switched off', { ruleId: 'hold-maximum', enabled: false }],
    ['a tolerance that no regulation names', { ruleId: 'lot-balance', parameters: { bulkPercent: 25 } }],
  ])('%s is nothing to show', (_, entry) => {
    expect(adopting(entry).outcome).toBe('met');
  });
  it('a regulation that does not bind the operation is not asked for', () => {
    const season = ordinary({ regimes: ['us-produce-safety'] });
    expect(adopting({ ruleId: 'harvest-interval', enabled: false }, season).outcome).toBe('met');
  });
  it('a ruling of the certifier does not lift the regulation', () => {
    const season = ordinary();
    season.add('certifier.wrote', '04-02 09:00', { reference: 'L-1', kind: 'ruling', text: '80 days will do.' });
    const entry = { ruleId: 'harvest-interval', parameters: { otherDays: 80 }, certifierReference: 'L-1' };
    expect(adopting(entry, season).message).toContain('otherDays is 80 d');
  });
});
