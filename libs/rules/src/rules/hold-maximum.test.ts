import { describe, expect, it } from '@jest/globals';
import { judgeBatch } from '../engine/evaluate.ts';
import { gal, id, instant, ordinary, type Beside } from '../testing/season.ts';
import { drawOutcomes, drawVerdict, outcomeOf } from '../testing/verdicts.ts';

/** Limits: common practice, no source: 6 h advised, 8 h limit, a check after 2 h. The air goes off at 06:30 on 3 June. */
const brewed = () => {
  const season = ordinary();
  const batch = season
    .batch('T-14')
    .filled('06-02 05:00')
    .airOn('06-02 05:00')
    .fed('06-02 06:00', 'C-1')
    .oxygen('06-03 05:00', 7)
    .airOff('06-03 06:30');
  return { season, batch };
};
const appliedUntil = (end: string, { checked = true, beside = {} }: { checked?: boolean; beside?: Beside } = {}) => {
  const { season, batch } = brewed();
  if (checked) batch.checked('06-03 07:00');
  batch.applied('A-1', '06-03 07:30', end, 'North 4', gal(250), {}, beside);
  return season.season();
};

describe('hold time', () => {
  it.each([
    ['06-03 12:30', 'met', 'exactly 6 h'],
    ['06-03 12:31', 'caution', '6 h 1 min are past the advised time'],
    ['06-03 14:30', 'caution', 'exactly 8 h belong to the allowed side'],
    ['06-03 14:30:00.001', 'broken', '8 h and a millisecond break the limit'],
    ['06-03 14:31', 'broken', 'a batch applied 8 h 1 min after air off breaks the hold limit'],
  ])('applied until %s is %s: %s', (end, verdict) => {
    expect(drawVerdict(appliedUntil(end), 'hold-maximum', 'T-14')).toBe(verdict);
  });

  it('of a batch whose tea was applied the draws speak; of tea that stands there past its time the batch does', () => {
    const ofBatch = (season: ReturnType<typeof appliedUntil>) =>
      judgeBatch(season, id('T-14'), instant('06-05 00:00')).filter(
        ({ ruleId, about }) => ruleId === 'hold-maximum' && about.kind === 'batch',
      );
    expect(ofBatch(appliedUntil('06-03 14:31'))).toEqual([]);
    const season = ordinary();
    season.batch('T-14').filled('06-02 05:00').airOn('06-02 05:00').fed('06-02 06:00', 'C-1').airOff('06-03 06:30');
    expect(ofBatch(season.season())).toMatchObject([{ outcome: 'unknown' }]);
  });

  it('a hair over the limit is called so, not "8 h" against "8 h"', () => {
    const [outcome] = drawOutcomes(appliedUntil('06-03 14:30:00.001'), 'hold-maximum', 'T-14');
    expect(outcome?.message).toBe(
      'Outside your limit. Applied just over 8 h after its last air at 06:30 on 3 June 2026; the limit is 8 h.',
    );
  });

  it('an application ended at about half past two leaves the limit undecided, with the range in words', () => {
    const [outcome] = drawOutcomes(
      appliedUntil('06-03 14:30', { beside: { plusMinusMinutes: 30 } }),
      'hold-maximum',
      'T-14',
    );
    expect(outcome).toMatchObject({
      outcome: 'unknown',
      figures: [{ name: 'holdHours', value: 8, range: [7.5, 8.5] }],
    });
    expect(outcome?.message).toContain('between 7 h 30 min and 8 h 30 min');
  });

  it.each([
    ['06-03 08:30', 'met', '2 h need no check'],
    ['06-03 08:31', 'caution', '2 h 1 min without a check of oxygen or odour'],
  ])('without a check, applied until %s is %s: %s', (end, verdict) => {
    expect(drawVerdict(appliedUntil(end, { checked: false }), 'hold-maximum', 'T-14')).toBe(verdict);
  });

  it('a check made while the air was still on is none of the tea as held', () => {
    const { season, batch } = brewed();
    batch.checked('06-03 06:00').applied('A-1', '06-03 07:30', '06-03 11:00');
    expect(drawVerdict(season.season(), 'hold-maximum', 'T-14')).toBe('caution');
  });

  it.each([
    ['06-03 06:30', 'caution', 'in the minute in which the air went off'],
    ['06-03 06:31', 'met', 'a minute after it'],
    ['06-03 11:00', 'met', 'in the minute in which spraying ended'],
    ['06-03 11:01', 'caution', 'after it'],
  ])('tea held from 06:30 to 11:00 and looked at on %s: %s, %s', (when, verdict) => {
    for (const how of ['smelled', 'measured'] as const) {
      const { season, batch } = brewed();
      if (how === 'smelled') batch.checked(when);
      else batch.oxygen(when, 7);
      batch.applied('A-1', '06-03 07:30', '06-03 11:00');
      expect([how, drawVerdict(season.season(), 'hold-maximum', 'T-14')]).toEqual([how, verdict]);
    }
  });

  it('a power cut of 70 min after which nobody looked counts as hold time', () => {
    const season = ordinary();
    season
      .batch('T-14')
      .filled('06-02 05:00')
      .airOn('06-02 05:00')
      .fed('06-02 06:00', 'C-1')
      .airOff('06-03 01:00')
      .airOn('06-03 02:10')
      .airOff('06-03 06:30')
      .checked('06-03 08:00')
      .applied('A-1', '06-03 07:30', '06-03 13:40');
    // 7 h 10 min after the air off, and 1 h 10 min before it: 8 h 20 min.
    const [outcome] = drawOutcomes(season.season(), 'hold-maximum', 'T-14');
    expect(outcome?.outcome).toBe('broken');
    expect(outcome?.figures[0]?.value).toBeCloseTo(8 + 20 / 60, 9);
    expect(outcome?.message).toContain('1 h 10 min are an interruption');
  });

  it('the same power cut does not count where the operation allows 90 min without air', () => {
    const season = ordinary().adopted('2026-05-01 00:00', [
      { ruleId: 'air-continuous', parameters: { limitMinutes: 90 } },
    ]);
    season
      .batch('T-14')
      .filled('06-02 05:00')
      .airOn('06-02 05:00')
      .fed('06-02 06:00', 'C-1')
      .airOff('06-03 01:00')
      .airOn('06-03 02:10')
      .airOff('06-03 06:30')
      .checked('06-03 08:00')
      .applied('A-1', '06-03 07:30', '06-03 13:40');
    expect(drawVerdict(season.season(), 'hold-maximum', 'T-14')).toBe('caution');
  });

  it('says "apply by" as a clock time while the tea is held, and afterwards asks what became of it', () => {
    const { season } = brewed();
    const at = (now: string) => outcomeOf(season.season(), 'hold-maximum', 'T-14', { now: instant(now) });
    expect(at('06-03 07:00')).toMatchObject({ outcome: 'due', dueAt: instant('06-03 12:30') });
    expect(at('06-03 07:00').message).toContain('apply by 12:30 on 3 June 2026, at the latest by 14:30');
    expect(at('06-03 13:00')).toMatchObject({ outcome: 'due', dueAt: instant('06-03 14:30') });
    expect(at('06-03 14:31').outcome).toBe('unknown');
  });

  it('a load that was dumped was not held for anything', () => {
    const { season, batch } = brewed();
    batch.drawn('06-03 07:00', 'load', gal(100));
    season.add('draw.ended', '06-03 20:00', { drawId: season.idOf('load'), volume: gal(100), fate: 'dumped' });
    expect(drawVerdict(season.season(), 'hold-maximum', 'T-14')).toBe('notApplicable');
  });

  it('tea drawn from an aerated tank is held from the draw', () => {
    const season = ordinary();
    season
      .batch('T-14')
      .filled('06-02 05:00')
      .airOn('06-02 05:00')
      .fed('06-02 06:00', 'C-1')
      .applied('A-1', '06-03 07:00', '06-03 09:00');
    expect(drawOutcomes(season.season(), 'hold-maximum', 'T-14')[0]).toMatchObject({
      outcome: 'met',
      figures: [{ value: 2 }],
    });
  });

  it('a changed limit counts from the air off on that it is effective for, and never rewrites last month', () => {
    const run = (effective: string) => {
      const season = ordinary().adopted(effective, [{ ruleId: 'hold-maximum', parameters: { limitHours: 7 } }]);
      season
        .batch('T-14')
        .filled('06-02 05:00')
        .airOn('06-02 05:00')
        .fed('06-02 06:00', 'C-1')
        .airOff('06-03 06:30')
        .checked('06-03 07:00')
        .applied('A-1', '06-03 07:30', '06-03 14:00');
      return drawOutcomes(season.season(), 'hold-maximum', 'T-14')[0];
    };
    expect(run('2026-06-03 06:30')).toMatchObject({ outcome: 'broken', figures: [{ limit: 7, advised: 6 }] });
    expect(run('2026-06-03 06:31')).toMatchObject({ outcome: 'caution', figures: [{ limit: 8 }], ruleBookSeq: null });
  });
});
