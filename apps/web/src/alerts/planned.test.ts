import { describe, expect, it } from '@jest/globals';
import { isQuiet, toTell, withTold, type AlertPlan, type Planned } from './planned.ts';

const minute = 60_000;
const at = Date.parse('2026-06-03T10:00:00Z');
const oxygen: Planned = {
  ...{ key: 'f1 1', at, until: at + 24 * 60 * minute, loud: true },
  ...{ title: 'Tote 2', body: 'Record oxygen by 10:15', path: '/tank/b' },
};
const clean: Planned = { ...oxygen, key: 'f2 1', at: at - minute, loud: false, body: 'Empty and clean the tank' };
const plan: AlertPlan = {
  ...{ operationId: 'o', on: true, leadMinutes: 15, quiet: { from: 22 * 60, until: 5 * 60 }, zone: 'UTC' },
  ...{ language: 'en', planned: [oxygen, clean], plannedAt: at, told: {} },
};
const noon = 12 * 60;
const keys = (found: readonly Planned[]): readonly string[] => found.map(({ key }) => key);

describe('what a phone tells of', () => {
  it('is told from its time on, the earliest first, and not before', () => {
    expect(keys(toTell(plan, at - 2 * minute, noon))).toEqual([]);
    expect(keys(toTell(plan, at - minute, noon))).toEqual(['f2 1']);
    expect(keys(toTell(plan, at, noon))).toEqual(['f2 1', 'f1 1']);
  });
  it('is told once', () => {
    expect(keys(toTell(withTold(plan, ['f1 1'], at), at, noon))).toEqual(['f2 1']);
  });
  it('the same finding with another time is told again', () => {
    const later = { ...withTold(plan, ['f1 1'], at), planned: [{ ...oxygen, key: 'f1 2' }] };
    expect(keys(toTell(later, at, noon))).toEqual(['f1 2']);
  });
  it('waits for the end of the quiet hours, but for air and oxygen', () => {
    expect(keys(toTell(plan, at, 23 * 60))).toEqual(['f1 1']);
    expect(keys(toTell(plan, at, 5 * 60))).toEqual(['f2 1', 'f1 1']);
  });
  it('is let be once it is a day old, and where alerts are off', () => {
    expect(keys(toTell(plan, at + 24 * 60 * minute, noon))).toEqual([]);
    expect(keys(toTell({ ...plan, on: false }, at, noon))).toEqual([]);
  });
  it('is remembered while it is planned, however long ago it was told', () => {
    const month = 30 * 24 * 60 * minute;
    const told = withTold(withTold(plan, ['f1 1', 'gone'], at), [], at + month).told;
    expect(Object.keys(told)).toEqual(['f1 1']);
  });
});

describe('quiet hours', () => {
  it.each([
    [22 * 60, true],
    [0, true],
    [5 * 60 - 1, true],
    [5 * 60, false],
    [22 * 60 - 1, false],
  ])('from 22:00 until 05:00, at minute %i: %s', (minuteOfDay, quiet) => {
    expect(isQuiet({ from: 22 * 60, until: 5 * 60 }, minuteOfDay)).toBe(quiet);
  });
  it('may lie within a day, and may be none', () => {
    expect(isQuiet({ from: 60, until: 120 }, 90)).toBe(true);
    expect(isQuiet({ from: 60, until: 120 }, 120)).toBe(false);
    expect(isQuiet(null, 0)).toBe(false);
    expect(isQuiet({ from: 60, until: 60 }, 60)).toBe(false);
  });
});
