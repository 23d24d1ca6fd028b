import { describe, expect, it } from '@jest/globals';
import { judgeBatch } from '../engine/evaluate.ts';
import { BatchBuilder, id, instant, lb, mgPerL, ordinary, type SeasonBuilder } from '../testing/season.ts';
import { outcomeOf } from '../testing/verdicts.ts';

const late = instant('2026-12-31 00:00');

/** What a rule says of a thing beside a batch. */
function beside(season: SeasonBuilder, batch: string, ruleId: string, name: string) {
  const found = judgeBatch(season.season(), id(batch), late).find(
    (outcome) => outcome.ruleId === ruleId && outcome.about.id === id(name),
  );
  if (found === undefined) throw new Error(`${ruleId} says nothing of ${name} beside ${batch}`);
  return found;
}
/** Two batches a fortnight apart, fed from the same lot. */
function twoBatches(season: SeasonBuilder, lot = 'C-1'): SeasonBuilder {
  season.batch('T-14').filled('06-01 05:00').airOn('06-01 05:00').fed('06-01 06:00', lot, lb(1));
  season.batch('T-15').filled('06-15 05:00').airOn('06-15 05:00').fed('06-15 06:00', lot, lb(1));
  return season;
}

describe('beside a batch, what batches share is judged by what that batch did with it', () => {
  it('kelp whose approval ended between two batches: the first used it in order, the second did not', () => {
    const season = twoBatches(
      ordinary()
        .material('kelp', { kind: 'nutrient', microbialFood: 'yes' })
        .lot('K-1', 'kelp')
        .approved('kelp', '2026-01-01', '2026-06-10'),
      'K-1',
    );
    expect(beside(season, 'T-14', 'input-approved', 'K-1')).toMatchObject({
      outcome: 'met',
      message: expect.stringMatching(/^Used in T-14 on 1 June 2026/),
    });
    expect(beside(season, 'T-15', 'input-approved', 'K-1')).toMatchObject({
      outcome: 'broken',
      message: expect.stringMatching(/^Not met\. Used in T-15 on 15 June 2026/),
    });
    // The lot as a whole stands as with its worst use: that is the finding, under one id.
    const whole = outcomeOf(season.season(), 'input-approved', 'K-1');
    expect(whole.outcome).toBe('broken');
    expect(beside(season, 'T-14', 'input-approved', 'K-1').findingId).toBe(whole.findingId);
  });

  it('a lot that ended its shelf life, and one that was put on hold, between two batches', () => {
    const season = twoBatches(ordinary().lot('C-9', 'compost', lb(100), { expiresOn: '2026-06-10' }), 'C-9');
    season.add('lot.held', '06-10 09:00', { lotId: id('C-9'), reason: 'smells' });
    for (const ruleId of ['input-in-date', 'input-not-held'])
      expect([
        ruleId,
        beside(season, 'T-14', ruleId, 'C-9').outcome,
        beside(season, 'T-15', ruleId, 'C-9').outcome,
      ]).toEqual([ruleId, 'met', 'broken']);
  });

  it('an optical probe calibrated 30 days before the first batch: within its period there, past it with the second', () => {
    const season = twoBatches(ordinary().instrument('P-1', { kind: 'opticalProbe' }));
    season.add('instrument.calibrated', '05-03 08:00', { instrumentId: id('P-1'), standard: 'air' });
    new BatchBuilder(season, 'T-14').oxygen('06-01 12:00', 7, { instrumentId: id('P-1') });
    new BatchBuilder(season, 'T-15').oxygen('06-15 12:00', 7, { instrumentId: id('P-1') });
    expect(beside(season, 'T-14', 'instrument-calibrated', 'P-1').outcome).toBe('met');
    expect(beside(season, 'T-15', 'instrument-calibrated', 'P-1').outcome).toBe('broken');
  });

  it('a probe found 20 % off after the second batch: only readings since the last good check are in doubt', () => {
    const season = twoBatches(ordinary().instrument('P-1', { kind: 'opticalProbe' }));
    new BatchBuilder(season, 'T-14').oxygen('06-01 12:00', 7, { instrumentId: id('P-1') });
    new BatchBuilder(season, 'T-15').oxygen('06-15 12:00', 7, { instrumentId: id('P-1') });
    for (const [day, reading] of [
      ['06-10', 10],
      ['06-20', 8],
    ] as const)
      season.add('instrument.checked', `${day} 08:00`, {
        ...{ instrumentId: id('P-1'), standard: 'air' },
        reading: mgPerL(reading),
        expected: mgPerL(10),
      });
    expect(beside(season, 'T-14', 'instrument-drift', 'P-1')).toMatchObject({ outcome: 'met' });
    expect(beside(season, 'T-15', 'instrument-drift', 'P-1')).toMatchObject({
      outcome: 'caution',
      message: expect.stringContaining('T-15'),
    });
  });

  it('raw manure tea too near to a harvest is told beside the batch it was, not beside another on the same ground', () => {
    const season = ordinary()
      .planting('carrots', 'North 4', { ediblePart: 'root' })
      .material('manure', { kind: 'other', animalOrigin: 'yes' })
      .lot('Man-1', 'manure', lb(1000))
      .material('yard compost', { animalOrigin: 'yes' });
    // Its pile is not shown to have been hot: what came of it counts as raw manure.
    season.add('pile.started', '01-01 08:00', {
      ...{ pileId: id('P-1'), code: 'P-1', method: 'passive', carbonToNitrogen: 30 },
      inputs: [{ lotId: id('Man-1'), quantity: lb(500) }],
    });
    season.add('pile.finished', '01-20 08:00', {
      ...{ pileId: id('P-1'), lotId: id('Y-1'), code: 'Y-1', materialId: id('yard compost'), quantity: lb(400) },
    });
    for (const [code, day, applied] of [
      ['T-14', '02-01', '02-02'],
      ['T-15', '06-01', '06-02'],
    ] as const)
      season
        .batch(code, `${day} 05:00`)
        .filled(`${day} 05:00`)
        .airOn(`${day} 05:00`)
        .fed(`${day} 06:00`, 'Y-1')
        .applied(`A-${code}`, `${applied} 07:00`, `${applied} 08:00`);
    season.harvest('H-1', 'North 4', '07-01 09:00', { plantingId: id('carrots') });
    // 2 February to 1 July: 149 days; 2 June to 1 July: 29, of 120 (7 CFR 205.203(c)(1)).
    expect(beside(season, 'T-14', 'harvest-interval', 'H-1')).toMatchObject({
      outcome: 'met',
      message: expect.stringContaining('A-T-14'),
    });
    expect(beside(season, 'T-15', 'harvest-interval', 'H-1').outcome).toBe('broken');
  });
});
