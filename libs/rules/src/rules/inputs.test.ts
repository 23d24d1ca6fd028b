import { describe, expect, it } from '@jest/globals';
import { gal, id, lb, ordinary, type SeasonBuilder } from '../testing/season.ts';
import { outcomeOf } from '../testing/verdicts.ts';

const usedOn = (season: SeasonBuilder, lot: string, when = '06-02 06:00', plusMinusMinutes = 0) => {
  season.batch('T-14').filled('06-01 05:00').airOn('06-01 05:00').fed(when, lot, lb(1), { plusMinusMinutes });
  return season.season();
};
const kelp = (from?: string, until?: string) => {
  const season = ordinary().material('kelp', { kind: 'nutrient', microbialFood: 'yes' }).lot('K-1', 'kelp');
  return from === undefined ? season : season.approved('kelp', from, until);
};

describe('input-approved: approved on the day of use', () => {
  it.each<[string, string | undefined, string, string]>([
    ['2026-06-02', undefined, 'met', 'approved from that very day'],
    ['2026-06-03', undefined, 'broken', 'approved only from the day after'],
    ['2026-01-01', '2026-06-02', 'met', 'approved up to that very day'],
    ['2026-01-01', '2026-06-01', 'broken', 'approval ended the day before'],
  ])('used on 2 June, approved from %s until %s: %s, %s', (from, until, verdict) => {
    expect(outcomeOf(usedOn(kelp(from, until), 'K-1'), 'input-approved', 'K-1').outcome).toBe(verdict);
  });

  it('nobody approved it', () => {
    const outcome = outcomeOf(usedOn(kelp(), 'K-1'), 'input-approved', 'K-1');
    expect(outcome.outcome).toBe('broken');
    expect(outcome.message).toMatch(/^Not met\. /);
  });

  it('withdrawn before the use, by whoever approved it', () => {
    const withdrawn = (from: string, by: 'certifier' | 'reviewBody' = 'certifier') => {
      const season = kelp('2026-01-01');
      season.add('material.withdrawn', `${from} 09:00`, { materialId: id('kelp'), by, reference: 'letter', from });
      return outcomeOf(usedOn(season, 'K-1'), 'input-approved', 'K-1').outcome;
    };
    expect(withdrawn('2026-06-02')).toBe('broken');
    expect(withdrawn('2026-06-03')).toBe('met');
    expect(withdrawn('2026-06-01', 'reviewBody')).toBe('met');
  });

  it('a use around midnight may have been on the day the approval ended or on the next', () => {
    const season = kelp('2026-01-01', '2026-06-02');
    expect(outcomeOf(usedOn(season, 'K-1', '06-02 23:50', 30), 'input-approved', 'K-1').outcome).toBe('unknown');
  });

  it('a lot in the sprayer counts like one in the tank', () => {
    const season = kelp();
    season
      .batch('T-14')
      .filled('06-02 05:00')
      .fed('06-02 06:00', 'C-1')
      .applied('A-1', '06-03 07:00', '06-03 08:00', 'North 4', gal(100), {
        tankMix: [{ lotId: id('K-1'), quantity: lb(1) }],
      });
    expect(outcomeOf(season.season(), 'input-approved', 'K-1').outcome).toBe('broken');
  });

  it("the operation's own word alone asks for the certifier's", () => {
    const season = kelp().approved('kelp', '2026-01-01', undefined, { by: 'operation' });
    expect(outcomeOf(usedOn(season, 'K-1'), 'input-approved', 'K-1').outcome).toBe('caution');
  });

  it('a lot whose material nobody registered cannot be told about', () => {
    const season = ordinary().lot('X-1', 'unheard of');
    expect(outcomeOf(usedOn(season, 'X-1'), 'input-approved', 'X-1').outcome).toBe('unknown');
  });
});

describe('input-in-date: the date on the lot', () => {
  const dated = (expiresOn: string) => ordinary().lot('M-2', 'molasses', lb(10), { expiresOn });
  it.each([
    ['2026-06-02', 'met', 'the date itself still counts'],
    ['2026-06-01', 'broken', 'a day past it'],
  ])('used on 2 June with the date %s: %s, %s', (expires, verdict) => {
    expect(outcomeOf(usedOn(dated(expires), 'M-2'), 'input-in-date', 'M-2').outcome).toBe(verdict);
  });
  it('a use around midnight may have been past it', () => {
    expect(outcomeOf(usedOn(dated('2026-06-02'), 'M-2', '06-02 23:50', 30), 'input-in-date', 'M-2').outcome).toBe(
      'unknown',
    );
  });
  it('the day is the one in the zone of the operation', () => {
    // 2 June, 23:30 in Chicago, is 3 June in Greenwich.
    const open = usedOn(dated('2026-06-02'), 'M-2', '2026-06-03T04:30:00Z');
    expect(outcomeOf(open, 'input-in-date', 'M-2').outcome).toBe('met');
  });
});

describe('input-not-held', () => {
  const held = (released?: string) => {
    const season = ordinary();
    season.add('lot.held', '06-01 08:00', { lotId: id('M-1'), reason: 'seal broken' });
    if (released !== undefined) season.add('lot.released', released, { lotId: id('M-1') });
    return usedOn(season, 'M-1');
  };
  it('used while it was held', () => {
    expect(outcomeOf(held(), 'input-not-held', 'M-1').outcome).toBe('broken');
  });
  it.each([
    ['06-02 05:59', 'met'],
    ['06-02 06:00', 'met'],
    ['06-02 06:01', 'broken'],
  ])('used at 06:00, released at %s: %s', (released, verdict) => {
    expect(outcomeOf(held(released), 'input-not-held', 'M-1').outcome).toBe(verdict);
  });
});

describe('input-recalled', () => {
  it('a recall after the use re-opens it', () => {
    const season = ordinary();
    season.add('lot.recalled', '07-12 08:00', { lotId: id('M-1'), reason: 'supplier notice' });
    const outcome = outcomeOf(usedOn(season, 'M-1'), 'input-recalled', 'M-1');
    expect(outcome).toMatchObject({ outcome: 'broken', severity: 'critical' });
    expect(outcome.message).toContain('T-14 on 2 June 2026');
  });
  it.each([
    [5, false],
    [6, true],
  ])('of %i uses five are named; whether more are counted: %s', (uses, counted) => {
    const season = ordinary();
    const batch = season.batch('T-14').filled('06-01 05:00').airOn('06-01 05:00');
    for (let i = 0; i < uses; i += 1) batch.fed(`06-02 0${String(i)}:00`, 'M-1', lb(1));
    season.add('lot.recalled', '07-12 08:00', { lotId: id('M-1'), reason: 'supplier notice' });
    const { message, figures } = outcomeOf(season.season(), 'input-recalled', 'M-1');
    expect(message.match(/T-14 on/g)).toHaveLength(5);
    expect(message.includes('and 1 more')).toBe(counted);
    expect(figures).toEqual([{ name: 'uses', value: uses }]);
  });
  it('a recalled lot still on the shelf is kept out', () => {
    const season = ordinary();
    season.add('lot.recalled', '07-12 08:00', { lotId: id('M-1'), reason: 'supplier notice' });
    expect(outcomeOf(season.season(), 'input-recalled', 'M-1').outcome).toBe('caution');
  });
  it('a lot never recalled is not asked about', () => {
    expect(outcomeOf(usedOn(ordinary(), 'M-1'), 'input-recalled', 'M-1').outcome).toBe('notApplicable');
  });
});

describe('lot-balance', () => {
  const drum = (used: readonly number[], counted?: number) => {
    const season = ordinary().lot('M-2', 'molasses', gal(50));
    const batch = season.batch('T-14').filled('06-01 05:00').airOn('06-01 05:00');
    used.forEach((amount, i) => batch.fed(`06-02 0${i}:00`, 'M-2', gal(amount)));
    if (counted !== undefined) season.add('lot.counted', '06-10 08:00', { lotId: id('M-2'), quantity: gal(counted) });
    return outcomeOf(season.season(), 'lot-balance', 'M-2');
  };
  it.each([
    [[25, 25], 'met', 'used up to the last drop'],
    [[25, 26], 'caution', 'exactly 2 % of 50 gal over, as weighing errs'],
    [[25, 26.01], 'broken', 'more than 2 % over'],
  ])('of a drum of 50 gal %s were used: %s, %s', (used, verdict) => {
    expect(drum(used).outcome).toBe(verdict);
  });
  it.each([
    [41, 'met', 'a count exactly 2 % of 50 gal away'],
    [41.01, 'broken', 'a count more than 2 % away'],
    [39, 'met', 'as much less'],
    [38.99, 'broken', 'more than that less'],
  ])('10 gal used and %s counted: %s, %s', (counted, verdict) => {
    expect(drum([10], counted).outcome).toBe(verdict);
  });
  it('bulk compost is let differ by 15 %', () => {
    const pile = (used: number) => {
      const season = ordinary().lot('C-2', 'compost', { value: 10, unit: '[cyd_i]' });
      season.batch('T-14').filled('06-01 05:00').fed('06-02 06:00', 'C-2', { value: used, unit: '[cyd_i]' });
      return outcomeOf(season.season(), 'lot-balance', 'C-2').outcome;
    };
    expect([pile(10), pile(11.5), pile(11.51)]).toEqual(['met', 'caution', 'broken']);
  });
  it('ten times a tenth is one: balances are decimal', () => {
    const season = ordinary().lot('M-2', 'molasses', gal(1));
    const batch = season.batch('T-14').filled('06-01 05:00');
    for (let i = 0; i < 10; i++) batch.fed(`06-02 0${i}:00`, 'M-2', gal(0.1));
    expect(outcomeOf(season.season(), 'lot-balance', 'M-2')).toMatchObject({ outcome: 'met', figures: [{ value: 0 }] });
  });
  it('a bucket whose worth is not registered leaves the balance open', () => {
    const season = ordinary();
    season
      .batch('T-14')
      .filled('06-01 05:00')
      .fed('06-02 06:00', 'C-1', { value: 1, unit: '{measure}', measureId: id('bucket') });
    expect(outcomeOf(season.season(), 'lot-balance', 'C-1').outcome).toBe('unknown');
  });
  it('more used than there was is broken whatever else cannot be read', () => {
    const season = ordinary().lot('M-2', 'molasses', gal(50));
    season
      .batch('T-14')
      .filled('06-01 05:00')
      .fed('06-02 06:00', 'M-2', gal(60))
      .fed('06-02 07:00', 'M-2', { value: 1, unit: '{measure}', measureId: id('bucket') });
    expect(outcomeOf(season.season(), 'lot-balance', 'M-2').outcome).toBe('broken');
  });
});
