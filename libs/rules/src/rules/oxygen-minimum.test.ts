import { describe, expect, it } from '@jest/globals';
import { instant, mgPerL, ordinary } from '../testing/season.ts';
import type { Quantity } from '@furrowmark/domain';
import { outcomeOf } from '../testing/verdicts.ts';

/** 6 mg/L: common practice, no source. */
const read = (readings: readonly (readonly [string, number | Quantity])[]) => {
  const season = ordinary();
  const batch = season.batch('T-14').filled('06-02 05:00').airOn('06-02 05:00').fed('06-02 06:00', 'C-1');
  for (const [when, value] of readings) batch.oxygen(when, value);
  batch.applied('A-1', '06-03 07:00', '06-03 08:00');
  return outcomeOf(season.season(), 'oxygen-minimum', 'T-14');
};

describe('least oxygen', () => {
  it.each([
    [6, 'met', 'exactly 6 mg/L belong to the allowed side'],
    [5.99, 'broken', '5.99 mg/L with no sufficient reading after it'],
  ])('a last reading of %s mg/L is %s: %s', (value, verdict) => {
    expect(read([['06-02 20:00', value]]).outcome).toBe(verdict);
  });

  it.each([
    ['06-02 21:00', 'caution', 'corrected within exactly 60 min'],
    ['06-02 21:01', 'broken', 'corrected a minute too late'],
  ])('5 mg/L at 20:00 and 6.5 at %s is %s: %s', (again, verdict) => {
    expect(
      read([
        ['06-02 20:00', 5],
        [again, 6.5],
      ]).outcome,
    ).toBe(verdict);
  });

  it.each<[readonly (readonly [string, number])[], string, string]>([
    [
      [
        ['06-02 12:00', 7],
        ['06-02 20:00', 5],
      ],
      'broken',
      'enough before it mends nothing',
    ],
    [
      [
        ['06-02 19:30', 7],
        ['06-02 20:00', 5],
        ['06-02 20:30', 4],
      ],
      'broken',
      'nor does a worse one after it',
    ],
    [
      [
        ['06-02 20:00', 5],
        ['06-02 20:30', 4],
        ['06-02 21:00', 7],
      ],
      'caution',
      'enough an hour after the first low one mends both',
    ],
    [
      [
        ['06-02 20:00', 5],
        ['06-02 20:30', 7],
        ['06-02 22:00', 5],
      ],
      'broken',
      'the last one was left alone',
    ],
  ])('%j: %s, %s', (readings, verdict) => {
    expect(read(readings).outcome).toBe(verdict);
  });

  it('a correction an hour later, half an hour either way, may have come in time or not: it cannot be told', () => {
    const season = ordinary();
    season
      .batch('T-14')
      .filled('06-02 05:00')
      .airOn('06-02 05:00')
      .fed('06-02 06:00', 'C-1')
      .oxygen('06-02 20:00', 5)
      .oxygen('06-02 21:00', 6.5, {}, { plusMinusMinutes: 30 })
      .applied('A-1', '06-03 07:00', '06-03 08:00');
    expect(outcomeOf(season.season(), 'oxygen-minimum', 'T-14').outcome).toBe('unknown');
  });

  it('a reading below 8 mg/L, as a strip gives it, does not tell', () => {
    expect(read([['06-02 20:00', mgPerL(8, { qualifier: '<' })]]).outcome).toBe('unknown');
    expect(read([['06-02 20:00', mgPerL(6, { qualifier: 'between', high: 8 })]]).outcome).toBe('met');
    expect(read([['06-02 20:00', mgPerL(4, { qualifier: 'between', high: 6 })]]).outcome).toBe('unknown');
    expect(read([['06-02 20:00', mgPerL(5, { qualifier: '<' })]]).outcome).toBe('broken');
  });

  it('says a reading as it was written', () => {
    expect(read([['06-02 20:00', mgPerL(4, { qualifier: 'between', high: 5 })]]).message).toContain(
      'between 4 and 5 mg/L',
    );
    expect(read([['06-02 20:00', mgPerL(5, { qualifier: '<' })]]).message).toContain('below 5 mg/L');
    expect(read([['06-02 20:00', { value: 5, unit: '[ppm]' }]]).message).toContain('5 ppm');
  });

  it.each([
    ['<', 6, 'broken'],
    ['<', 6.1, 'unknown'],
    ['>', 6, 'met'],
    ['>', 5.9, 'unknown'],
  ] as const)('a reading of %s %s mg/L is %s: below 6 is not 6', (qualifier, value, verdict) => {
    expect(read([['06-02 20:00', mgPerL(value, { qualifier })]]).outcome).toBe(verdict);
  });

  it('readings before the food goes in and after the last draw do not count', () => {
    expect(
      read([
        ['06-02 05:30', 3],
        ['06-02 20:00', 7],
        ['06-03 12:00', 2],
      ]),
    ).toMatchObject({ outcome: 'met' });
  });

  it('no reading from brew start to the last draw: unknown, with what is missing', () => {
    const outcome = read([]);
    expect(outcome.outcome).toBe('unknown');
    expect(outcome.message).toContain('No oxygen reading');
  });

  it('several low readings are figures of one finding', () => {
    const outcome = read([
      ['06-02 12:00', 4],
      ['06-02 20:00', 5],
    ]);
    expect(outcome.outcome).toBe('broken');
    expect(outcome.figures.map((figure) => figure.value)).toEqual([4, 5]);
    expect(outcome.message).toContain('1 more reading was no better');
  });

  it('asks for another reading while a low one can still be corrected', () => {
    const season = ordinary();
    season.batch('T-14').filled('06-02 05:00').airOn('06-02 05:00').fed('06-02 06:00', 'C-1').oxygen('06-02 20:00', 5);
    const at = (now: string) => outcomeOf(season.season(), 'oxygen-minimum', 'T-14', { now: instant(now) });
    expect(at('06-02 20:30')).toMatchObject({ outcome: 'due', dueAt: instant('06-02 21:00'), due: 'record oxygen' });
    expect(at('06-02 21:01').outcome).toBe('broken');
  });

  it('practice is called outside your limit, not a violation', () => {
    expect(read([['06-02 20:00', 5]]).message).toMatch(/^Outside your limit\. /);
  });
});
