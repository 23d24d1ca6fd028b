import { describe, expect, it } from '@jest/globals';
import { axisTicks, localTime } from './clock.ts';

const zone = 'America/New_York';

describe('local time', () => {
  it('is the wall clock of the operation, whatever offset the phone wrote', () => {
    expect(localTime(Date.parse('2026-04-21T22:30:00+02:00'), zone)).toBe('2026-04-21 16:30');
  });

  it('tells apart the hour that is lived twice when the clocks go back (1 November 2026 in New York)', () => {
    expect(localTime(Date.parse('2026-11-01T05:30:00Z'), zone)).toBe('2026-11-01 01:30 -04:00');
    expect(localTime(Date.parse('2026-11-01T06:30:00Z'), zone)).toBe('2026-11-01 01:30 -05:00');
    expect(localTime(Date.parse('2026-11-01T07:30:00Z'), zone)).toBe('2026-11-01 02:30');
  });
});

describe('a time axis', () => {
  it('has round hours, and the date at midnight', () => {
    const ticks = axisTicks(Date.parse('2026-04-20T19:00-04:00'), Date.parse('2026-04-21T07:30-04:00'), zone, 6);
    expect(ticks.map(({ label }) => label)).toEqual(['21:00', '2026-04-21', '03:00', '06:00']);
  });

  it('keeps round hours on the day that has 23 (8 March 2026: 01:59 is followed by 03:00)', () => {
    const ticks = axisTicks(Date.parse('2026-03-08T00:00-05:00'), Date.parse('2026-03-09T00:00-04:00'), zone, 8);
    expect(ticks.map(({ label }) => label)).toEqual([
      '2026-03-08',
      '03:00',
      '06:00',
      '09:00',
      '12:00',
      '15:00',
      '18:00',
      '21:00',
      '2026-03-09',
    ]);
  });

  it('goes by days over a season', () => {
    const ticks = axisTicks(Date.parse('2026-04-01T00:00-04:00'), Date.parse('2026-10-31T00:00-04:00'), zone, 10);
    expect(ticks.length).toBeGreaterThan(3);
    expect(ticks.length).toBeLessThanOrEqual(10);
    expect(ticks.every(({ isDay }) => isDay)).toBe(true);
  });
});
