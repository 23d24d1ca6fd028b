import { describe, expect, it } from '@jest/globals';
import { doneOutOfTime } from './doneAt.ts';
import { limitProblems } from './limits.ts';
import { nearest } from './nearest.ts';
import { nameOf } from './problem.ts';

const wrong = (value: unknown) => limitProblems(value).map(({ pointer }) => pointer);
const fine = (value: unknown) => limitProblems(value).length === 0;

describe('the name of a member', () => {
  it('leaves out the payload, counts lists from 1, and is the record itself where there is none', () => {
    expect(nameOf(['data', 'targets', 1, 'area'])).toBe('“targets › 2 › area”');
    expect([nameOf(['data']), nameOf(['code']), nameOf([])]).toEqual(['“data”', '“code”', 'The record']);
  });
});

describe('what a record can hold', () => {
  it('a text of 10,000 characters, counted as people count them, and not one more', () => {
    expect([fine('a'.repeat(10_000)), fine('a'.repeat(10_001))]).toEqual([true, false]);
    // A seedling takes two units of UTF-16 and is one character.
    expect([fine('🌱'.repeat(10_000)), fine('🌱'.repeat(10_001))]).toEqual([true, false]);
    expect([fine('half \ud83c'), fine('a\0b')]).toEqual([false, false]);
  });
  it('a number of 15 digits that matter, below a million million, either sign', () => {
    expect([fine(999_999_999_999), fine(1e12), fine(-999_999_999_999), fine(-1e12)]).toEqual([
      true,
      false,
      true,
      false,
    ]);
    expect([fine(0.123456789012345), fine(0.1234567890123456)]).toEqual([true, false]);
    // Zeros before and behind do not count.
    expect([fine(0.00000123456789012345), fine(123456789012.345), fine(123456789012.3456)]).toEqual([
      true,
      true,
      false,
    ]);
    expect([fine(1.23456789012345e-20), fine(1.234567890123456e-20), fine(0)]).toEqual([true, false, true]);
    expect([fine(Infinity), fine(NaN)]).toEqual([false, false]);
  });
  it('20 levels, the record itself being the first', () => {
    const nested = (levels: number): unknown => (levels === 1 ? {} : { inner: nested(levels - 1) });
    const listed = (levels: number): unknown => (levels === 1 ? [] : [listed(levels - 1)]);
    expect([fine(nested(20)), fine(nested(21)), fine(listed(20)), fine(listed(21))]).toEqual([
      true,
      false,
      true,
      false,
    ]);
  });
  it('is pointed at where it stands, names included', () => {
    expect(wrong({ a: [1, 'b\0'], 'c\0': 1, d: { e: 1e12 } })).toEqual(['/a/1', '/c\0', '/d/e']);
    expect(wrong(JSON.parse('{"a":{"__proto__":1}}'))).toEqual(['/a/__proto__']);
    expect(fine({ a: null, b: true, c: 'kelp' })).toBe(true);
  });
});

describe('when something was done', () => {
  const now = Date.parse('2026-06-03T12:00:00Z');
  const late = (value: unknown) => doneOutOfTime(value, now).map(({ pointer }) => pointer);
  it('a day begins up to 14 hours before it does in UTC: with a day of grace, the 4th and the 5th are taken', () => {
    // On the 3rd at 12:00 UTC a day ahead is 12:00 on the 4th; the 5th had begun then in Kiribati (10:00 UTC on the 4th).
    expect(late({ weighedOn: '2026-06-05' })).toEqual([]);
    expect(late({ weighedOn: '2026-06-06' })).toEqual(['/weighedOn']);
    expect(doneOutOfTime({ weighedOn: '2026-06-05' }, Date.parse('2026-06-03T10:00:00Z'))).toEqual([]);
    expect(doneOutOfTime({ weighedOn: '2026-06-05' }, Date.parse('2026-06-03T09:59:59Z'))).toHaveLength(1);
    expect(late({ lastProhibitedOn: '2027-01-01', expiresOn: '2027-01-01', weighedOn: 'next week' })).toEqual([
      '/lastProhibitedOn',
    ]);
  });
  it('an instant to the millisecond: a day ahead is taken, and the first of 1970', () => {
    expect(late({ occurredAt: '2026-06-04T12:00:00Z' })).toEqual([]);
    expect(late({ occurredAt: '2026-06-04T12:00:00.001Z' })).toEqual(['/occurredAt']);
    expect(late({ occurredAt: '1970-01-01T00:00:00Z' })).toEqual([]);
    expect(late({ occurredAt: '1969-12-31T23:59:59.999Z' })).toEqual(['/occurredAt']);
    expect(late({ expiresAt: '2031-01-01T00:00:00Z', what: '2031-01-01T00:00:00Z' })).toEqual([]);
    expect(late({ foundAt: 'about noon' })).toEqual([]);
  });
  it('is looked for inside lists and members, not among the parameters of a rule', () => {
    expect(late({ data: { draws: [{ drawnAt: '2027-01-01T00:00:00Z' }] } })).toEqual(['/data/draws/0/drawnAt']);
    expect(late({ parameters: { startedAt: '2027-01-01T00:00:00Z' } })).toEqual([]);
    expect(late(null)).toEqual([]);
  });
});

describe('the word that was probably meant', () => {
  const words = ['batch.filled', 'batch.drawn', 'lot'];
  it('a quarter of its letters may be wrong, at least one, whatever the case', () => {
    expect(nearest('BATCH.FILLED', words)).toBe('batch.filled');
    // 12 letters: three edits.
    expect([nearest('batchfilld!', words), nearest('btchfild', words)]).toEqual(['batch.filled', null]);
    expect([nearest('lit', words), nearest('lits', words), nearest('lo', words), nearest('lott', words)]).toEqual([
      ...['lot', null, 'lot', 'lot'],
    ]);
  });
  it('of two the nearer, of two as near the first', () => {
    expect(nearest('batch.drawm', words)).toBe('batch.drawn');
    expect(nearest('cot', ['lot', 'pot'])).toBe('lot');
    expect(nearest('pott', ['pat', 'pot'])).toBe('pot');
    // One letter to the one, two to the other, and both near enough.
    for (const either of [
      ['finishedBy', 'finishedAt'],
      ['finishedAt', 'finishedBy'],
    ])
      expect(nearest('finishedA', either)).toBe('finishedAt');
  });
  it('a text of more than 60 letters is compared with nothing', () => {
    expect(nearest('a'.repeat(60), ['a'.repeat(61)])).not.toBeNull();
    expect(nearest('a'.repeat(61), ['a'.repeat(61)])).toBeNull();
    expect(nearest('anything', [])).toBeNull();
  });
});
