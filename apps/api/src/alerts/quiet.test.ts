import { describe, expect, it } from '@jest/globals';
import { isQuiet, isUrgent } from './quiet.ts';

const night = { from: '21:00', until: '05:30' };
const chicago = (time: string): number => Date.parse(`2026-06-03T${time}-05:00`);

describe('quiet hours', () => {
  it.each([
    ['20:59', false],
    ['21:00', true],
    ['23:59', true],
    ['00:00', true],
    ['05:29', true],
    ['05:30', false],
    ['12:00', false],
  ])('from 21:00 until 05:30 of the farm’s own clock: at %s %s', (time, quiet) => {
    expect(isQuiet(night, chicago(time), 'America/Chicago')).toBe(quiet);
  });

  it('within one day end on that day', () => {
    const noon = { from: '12:00', until: '13:00' };
    expect([
      isQuiet(noon, chicago('11:59'), 'America/Chicago'),
      isQuiet(noon, chicago('12:30'), 'America/Chicago'),
    ]).toEqual([false, true]);
    expect(isQuiet(noon, chicago('13:00'), 'America/Chicago')).toBe(false);
  });

  it('of nobody, or from a time until the same time, are none', () => {
    expect(isQuiet(null, chicago('02:00'), 'America/Chicago')).toBe(false);
    expect(isQuiet({ from: '05:00', until: '05:00' }, chicago('05:00'), 'America/Chicago')).toBe(false);
  });

  it('do not hold back what is about air and oxygen', () => {
    expect(['air-continuous', 'oxygen-minimum', 'oxygen-checked'].every(isUrgent)).toBe(true);
    expect(['hold-maximum', 'source-tested', 'record-complete'].some(isUrgent)).toBe(false);
  });
});
