import { describe, expect, it } from '@jest/globals';
import { ruleBookOf } from './engine/rule-book.ts';
import { messageIn } from './index.ts';
import { oxygenMinimum } from './rules/oxygen-minimum.ts';
import { compostProduce } from './rules/compost-produce.ts';
import { acres, gal, id, instant, lb, ordinary, type SeasonBuilder } from './testing/season.ts';
import { outcomeOf } from './testing/verdicts.ts';

type Entry = Parameters<SeasonBuilder['adopted']>[1][number];

/** Tea of manure compost on North 4 on 1 May, beets cut there on a day. */
function beets(cut: string, entry: Partial<Entry> = {}, ...more: readonly string[]) {
  const season = ordinary().planting('beets', 'North 4', { ediblePart: 'root' });
  season.adopted('2026-01-01 00:00', [
    { ruleId: 'harvest-interval', parameters: { soilContactDays: 150 }, ...entry },
    ...more.map((ruleId) => ({ ruleId })),
  ]);
  season
    .material('manure', { kind: 'other', animalOrigin: 'yes' })
    .lot('Man-1', 'manure', lb(1000))
    .material('yard compost', { animalOrigin: 'yes' });
  season.add('pile.started', '02-01 08:00', {
    ...{ pileId: id('P-1'), code: 'P-1', method: 'passive', carbonToNitrogen: 30 },
    inputs: [{ lotId: id('Man-1'), quantity: lb(500) }],
  });
  season.add('pile.finished', '04-01 08:00', {
    ...{ pileId: id('P-1'), lotId: id('Y-1'), code: 'Y-1', materialId: id('yard compost'), quantity: lb(400) },
  });
  const batch = season
    .batch('T-14', '04-30 04:00')
    .filled('04-30 05:00')
    .airOn('04-30 05:00')
    .fed('04-30 06:00', 'Y-1');
  batch.applied('A-1', '05-01 12:00', '05-01 12:00', 'North 4', gal(100), {
    targets: [{ fieldId: id('North 4'), area: acres(1) }],
  });
  season.harvest('H-1', 'North 4', cut, { plantingId: id('beets') });
  return outcomeOf(season.season(), 'harvest-interval', 'H-1');
}

describe('a waiting time of 150 days of the operation, where 7 CFR 205.203(c)(1) asks for 120', () => {
  // 1 May + 120 days = 29 August; + 150 days = 28 September.
  it('kept: nothing to say', () => {
    expect(beets('09-28 09:00').outcome).toBe('met');
  });

  it("past the 120 days and short of 150: the operation's own limit, not the regulation", () => {
    for (const cut of ['08-29 09:00', '09-27 09:00']) {
      const outcome = beets(cut);
      expect(outcome).toMatchObject({ outcome: 'broken', basis: 'practice' });
      expect(outcome.message).toMatch(/^Outside your limit\. A-1 went on this ground on 1 May 2026/);
      expect(outcome.message).toMatch(
        /your rule book asks for 150\. This limit is your own; what is asked is less strict/,
      );
      expect(outcome.message).not.toMatch(/Not met|must not go out/);
      expect(messageIn(outcome, 'es')).toMatch(
        /^Fuera de su límite\. .*su libro de reglas pide 150\. Este límite es suyo/,
      );
    }
  });

  it('short of the 120 days: the regulation is not met, by its own figure, and neither is the stricter limit', () => {
    const outcome = beets('08-28 09:00');
    expect(outcome).toMatchObject({ outcome: 'broken', basis: 'regulation', figures: [{ value: 119, limit: 120 }] });
    expect(outcome.message).toMatch(/^Not met\. .*119 days later; 120 are asked for, because/);
    expect(outcome.message).toMatch(/stricter than asked, is not kept either\.$/);
  });

  it('what the system plan promises beyond the regulation is the plan', () => {
    const outcome = beets('09-01 09:00', { inSystemPlan: true });
    expect(outcome).toMatchObject({ outcome: 'broken', basis: 'ownPlan' });
    expect(outcome.message).toMatch(/^Not as the system plan promises\./);
    expect(beets('08-28 09:00', { inSystemPlan: true }).basis).toBe('regulation');
  });

  it('asked for by a ruling of the certifier, it stays the ruling', () => {
    // The letter is not on record here: then the entry counts as the operation's own.
    expect(beets('09-01 09:00', { certifierReference: 'L-9' }).basis).toBe('practice');
  });

  it('the same figure as asked, or a looser one, leaves the regulation the regulation', () => {
    expect(beets('08-28 09:00', { parameters: { soilContactDays: 120 } })).toMatchObject({ basis: 'regulation' });
    const looser = beets('07-29 09:00', { parameters: { soilContactDays: 100 } });
    expect(looser).toMatchObject({ outcome: 'broken', basis: 'regulation' });
    expect(looser.message).not.toMatch(/stricter/);
    // Only the days elsewhere are stricter: nothing of it concerns beets.
    const elsewhere = beets('08-28 09:00', { parameters: { otherDays: 100 } });
    expect(elsewhere).toMatchObject({ outcome: 'broken', basis: 'regulation', figures: [{ value: 119, limit: 120 }] });
  });
});

/** A static aerated pile of manure, warm on three days at 135 °F, cured. */
function pile(f: number, parameters: Record<string, number>, ruleId = 'compost-produce', carbonToNitrogen = 30) {
  const season = ordinary();
  season.adopted('2026-01-01 00:00', [{ ruleId, parameters }]);
  season.material('manure', { kind: 'other', animalOrigin: 'yes' }).lot('Man-1', 'manure', lb(1000));
  season.material('own compost', { animalOrigin: 'yes' });
  season.add('pile.started', '2026-03-01 08:00', {
    ...{ pileId: id('P-1'), code: 'P-1', method: 'staticAerated', carbonToNitrogen },
    inputs: [{ lotId: id('Man-1'), quantity: lb(500) }],
  });
  for (const day of ['02', '03', '04'])
    season.add('pile.measured', `2026-03-${day} 12:00`, {
      pileId: id('P-1'),
      temperatures: [{ value: { value: f, unit: '[degF]' } }],
    });
  season.add('pile.finished', '2026-04-20 08:00', {
    ...{ pileId: id('P-1'), lotId: id('Own-1'), code: 'Own-1', materialId: id('own compost'), quantity: lb(400) },
    curedFrom: '2026-03-05',
  });
  season
    .batch('T-20', '05-01 05:00')
    .filled('05-01 05:30')
    .airOn('05-01 05:30')
    .fed('05-01 07:00', 'Own-1')
    .applied('A-1', '05-02 09:00', '05-02 10:00', 'North 4', gal(100));
  season.harvest('H-1', 'North 4', '05-20 09:00', {});
  return season.season();
}

describe('own compost, hotter than 21 CFR 112.54(b) and 7 CFR 205.203(c)(2) ask', () => {
  it('135 °F where the operation asks itself for 140: its own limit; the tea of it is treated all the same', () => {
    const season = pile(135, { leastF: 140 });
    const own = outcomeOf(season, 'compost-produce', 'P-1');
    expect(own).toMatchObject({ outcome: 'broken', basis: 'practice' });
    expect(own.message).toMatch(
      /^Outside your limit\. The records show 0 such days; your rule book asks for 3 days in a row at 140 °F/,
    );
    expect(own.message).not.toMatch(/untreated/);
    expect(outcomeOf(season, 'treatment-status', 'T-20', { kind: 'batch' })).toMatchObject({ outcome: 'met' });
  });

  it('130 °F: the regulation is not met, and the tea counts as untreated', () => {
    const season = pile(130, { leastF: 140 });
    const outcome = outcomeOf(season, 'compost-produce', 'P-1');
    expect(outcome).toMatchObject({ outcome: 'broken', basis: 'regulation' });
    expect(outcome.message).toMatch(/asked are 3 days in a row at 131 °F or more\. It counts as untreated/);
    expect(outcomeOf(season, 'treatment-status', 'T-20', { kind: 'batch' })).toMatchObject({ outcome: 'caution' });
  });

  it('a mix of 38:1 where the operation asks itself for 35:1 at most is compost for the organic side, no raw manure', () => {
    const season = pile(135, { mostCarbonToNitrogen: 35 }, 'compost-organic', 38);
    const own = outcomeOf(season, 'compost-organic', 'P-1');
    expect(own).toMatchObject({ outcome: 'broken', basis: 'practice' });
    expect(own.message).toMatch(/the range of your rule book is 25:1 to 35:1/);
    expect(own.message).not.toMatch(/raw manure/);
    expect(outcomeOf(season, 'harvest-interval', 'H-1').outcome).toBe('notApplicable');
    const raw = pile(135, { mostCarbonToNitrogen: 35 }, 'compost-organic', 41);
    expect(outcomeOf(raw, 'compost-organic', 'P-1')).toMatchObject({ outcome: 'broken', basis: 'regulation' });
    expect(outcomeOf(raw, 'harvest-interval', 'H-1')).toMatchObject({ outcome: 'broken', basis: 'regulation' });
  });
});

describe('figures that a regulation leaves open', () => {
  const tested = (parameters: Record<string, number>, filled: string) => {
    const season = ordinary().adopted('2026-01-01 00:00', [{ ruleId: 'source-tested', parameters }]);
    season.batch('T-14', filled).filled(filled);
    return outcomeOf(season.season(), 'source-tested', 'T-14');
  };
  // The ordinary well was sampled on 1 May 2026.
  it('a water test that is to be no older than 30 days is the own limit; without one the regulation is not met', () => {
    expect(tested({ validDays: 30 }, '05-31 06:00').outcome).toBe('met');
    expect(tested({ validDays: 30 }, '06-01 06:00')).toMatchObject({ outcome: 'broken', basis: 'practice' });
    expect(tested({ validDays: 30 }, '04-01 06:00')).toMatchObject({ outcome: 'broken', basis: 'regulation' });
  });

  const told = (withinHours: number, when: string) => {
    const season = ordinary().adopted('2026-01-01 00:00', [
      { ruleId: 'notify-certifier', parameters: { withinHours } },
    ]);
    season.add('field.exposed', '06-01 08:00', { fieldId: id('North 4'), substance: 'glyphosate', how: 'drift' });
    season.add('certifier.notified', when, { about: [id('North 4')], how: 'telephone' });
    return outcomeOf(season.season(), 'notify-certifier', 'North 4');
  };
  it('told after 5 hours, where the operation asks itself for 2, is its own limit; after 25 hours "at once" is not met', () => {
    const own = told(2, '06-01 13:00');
    expect(own).toMatchObject({ outcome: 'broken', basis: 'practice' });
    expect(own.message).toMatch(/told 5 h later, after the 2 h of your rule book/);
    expect(told(2, '06-02 09:00')).toMatchObject({ outcome: 'broken', basis: 'regulation' });
    expect(told(2, '06-01 10:00').outcome).toBe('met');
  });
});

describe('what is asked of an operation, whatever it set itself', () => {
  const book = ruleBookOf(
    ordinary()
      .adopted('2026-01-01 00:00', [
        { ruleId: 'oxygen-minimum', parameters: { minimumMgPerL: 5 } },
        { ruleId: 'compost-produce', parameters: { leastF: 140 } },
      ])
      .season(),
  );
  const on = instant('06-01 12:00');
  it('where no regulation stands behind a figure it is the one adopted; else that of the regulation', () => {
    expect(oxygenMinimum.askedIn(book, on).parameters.minimumMgPerL).toBe(5);
    expect(compostProduce.askedIn(book, on).parameters.leastF).toBe(131);
  });
});
