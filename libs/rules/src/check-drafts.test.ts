import { parseDraft, type Draft } from '@furrowmark/domain';
import { describe, expect, it } from '@jest/globals';
import { checkDrafts } from './index.ts';
import { at, gal, id, instant, lb, ordinary } from './testing/season.ts';

const draft = (type: string, when: string, data: object): Draft => {
  const parsed = parseDraft(
    { id: id(`draft ${type} ${when}`), type, version: 1, occurredAt: at(when), data },
    { now: instant('2026-12-31 00:00') },
  );
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.problem));
  return parsed.draft;
};
const brewing = () => {
  const season = ordinary();
  season.batch('T-14').filled('06-02 05:00').airOn('06-02 05:00').fed('06-02 06:00', 'C-1').oxygen('06-02 18:00', 7);
  return season;
};

describe('asking before doing', () => {
  it('a lot whose approval has ended', () => {
    const season = brewing()
      .material('kelp', { kind: 'nutrient' })
      .lot('K-1', 'kelp')
      .approved('kelp', '2026-01-01', '2026-05-31');
    const outcomes = checkDrafts(
      season.season(),
      [draft('batch.ingredientAdded', '06-02 19:00', { batchId: id('T-14'), lotId: id('K-1'), quantity: lb(1) })],
      instant('06-02 19:00'),
    );
    expect(outcomes.map(({ ruleId, outcome, about }) => [ruleId, outcome, about.code])).toContainEqual([
      'input-approved',
      'broken',
      'K-1',
    ]);
  });

  it('air off: the hold would end at 14:35', () => {
    const season = brewing();
    const outcomes = checkDrafts(
      season.season(),
      [draft('batch.airStopped', '06-03 06:35', { batchId: id('T-14') })],
      instant('06-03 06:35'),
    );
    const hold = outcomes.find(({ ruleId }) => ruleId === 'hold-maximum');
    expect(hold?.outcome).toBe('due');
    expect(hold?.message).toContain('at the latest by 14:35');
  });

  it('food into chlorinated water after five minutes', () => {
    const season = ordinary().source('Town', { kind: 'municipal', disinfectant: 'chlorine' });
    season.batch('T-14').filled('06-02 05:00', gal(250), 'Town').airOn('06-02 05:00');
    const outcomes = checkDrafts(
      season.season(),
      [draft('batch.ingredientAdded', '06-02 05:05', { batchId: id('T-14'), lotId: id('C-1'), quantity: lb(5) })],
      instant('06-02 05:05'),
    );
    expect(outcomes.map(({ ruleId, outcome }) => [ruleId, outcome])).toContainEqual(['chlorine-dissipated', 'broken']);
  });

  it('untreated tea onto standing lettuce', () => {
    const season = brewing()
      .material('fish', { kind: 'nutrient', animalOrigin: 'yes', microbialFood: 'yes' })
      .lot('F-1', 'fish')
      .approved('fish', '2026-01-01')
      .planting('lettuce', 'North 4');
    season.add('batch.ingredientAdded', '06-02 06:05', { batchId: id('T-14'), lotId: id('F-1'), quantity: lb(1) });
    const outcomes = checkDrafts(
      season.season(),
      [
        draft('application.made', '06-03 08:00', {
          applicationId: id('A-1'),
          targets: [{ fieldId: id('North 4') }],
          draws: [{ batchId: id('T-14'), volume: gal(100) }],
          startedAt: at('06-03 07:00'),
          finishedAt: at('06-03 08:00'),
          method: 'foliar',
          edibleParts: 'present',
          applicator: id('Ines'),
        }),
      ],
      instant('06-03 08:00'),
    );
    expect(outcomes.find(({ ruleId }) => ruleId === 'contact-allowed')).toMatchObject({
      outcome: 'broken',
      severity: 'critical',
    });
  });

  it('what is of no batch is looked at all the same: a recall of what went into a tea, herbicide that drifts onto a field', () => {
    const told = (type: string, data: object) =>
      checkDrafts(brewing().season(), [draft(type, '06-02 19:00', data)], instant('06-02 19:00')).map(
        ({ ruleId, outcome, about }) => [ruleId, outcome, about.code],
      );
    expect(told('lot.recalled', { lotId: id('C-1'), reason: 'notice of the supplier' })).toContainEqual([
      ...['input-recalled', 'broken', 'C-1'],
    ]);
    expect(told('field.exposed', { fieldId: id('North 4'), substance: 'herbicide', how: 'drift' })).toContainEqual([
      ...['notify-certifier', 'due', 'North 4'],
    ]);
  });

  it('striking the only reading before a load was drawn tells of that load', () => {
    const season = brewing();
    const reading = season.add('batch.oxygenMeasured', '06-03 05:00', {
      ...{ batchId: id('T-14'), dissolvedOxygen: { value: 7, unit: 'mg/L' } },
    });
    season.batch('T-14').drawn('06-03 06:00', 'load', gal(100));
    const strike = { recordId: reading, type: 'batch.oxygenMeasured', reason: 'typed by mistake' };
    const outcomes = checkDrafts(
      season.season(),
      [draft('record.struck', '06-03 09:00', strike)],
      instant('06-03 09:00'),
    );
    expect(outcomes.map(({ ruleId, outcome, about }) => [ruleId, outcome, about.kind, about.id])).toContainEqual([
      ...['oxygen-checked', 'broken', 'draw', id('load')],
    ]);
  });

  it('what stood broken before is not told again, and nothing is recorded', () => {
    const season = brewing();
    season.add('lot.recalled', '06-02 10:00', { lotId: id('C-1'), reason: 'notice' });
    const open = season.season();
    const size = open.size;
    const outcomes = checkDrafts(
      open,
      [
        draft('batch.oxygenMeasured', '06-02 20:00', {
          batchId: id('T-14'),
          dissolvedOxygen: { value: 7, unit: 'mg/L' },
        }),
      ],
      instant('06-02 20:00'),
    );
    expect(outcomes.some(({ ruleId }) => ruleId === 'input-recalled')).toBe(false);
    expect(open.size).toBe(size);
    expect(open.version).toBe(1);
  });
});
