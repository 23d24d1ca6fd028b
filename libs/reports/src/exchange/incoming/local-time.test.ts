import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { dateOn, timeOn } from '@furrowmark/domain';
import { instantsOf } from './local-time.ts';

const texts = (date: string, hour: number, minute: number, zone: string): string[] =>
  instantsOf({ date, hour, minute, second: 0 }, zone).map((at) => new Date(at).toISOString());

describe('what a clock on the wall showed', () => {
  // United States daylight saving time 2026: 8 March to 1 November, at 02:00 local time (15 USC 260a).
  it('is one instant on a usual day', () => {
    expect(texts('2026-06-03', 6, 10, 'America/Chicago')).toEqual(['2026-06-03T11:10:00.000Z']);
  });
  it('is none in the hour that is skipped in spring', () => {
    expect(texts('2026-03-08', 2, 30, 'America/New_York')).toEqual([]);
  });
  it('is two in the hour that is lived twice in autumn, the earlier first', () => {
    expect(texts('2026-11-01', 1, 30, 'America/New_York')).toEqual([
      '2026-11-01T05:30:00.000Z',
      '2026-11-01T06:30:00.000Z',
    ]);
  });
  it('is found again for every instant', () => {
    const zone = fc.constantFrom('America/New_York', 'Europe/Berlin', 'Australia/Lord_Howe', 'Asia/Kathmandu', 'UTC');
    const minute = fc.integer({ min: Date.parse('2000-01-01') / 60_000, max: Date.parse('2035-01-01') / 60_000 });
    fc.assert(
      fc.property(zone, minute, (name, n) => {
        const at = n * 60_000;
        const [hour = 0, min = 0] = timeOn(at, name).split(':').map(Number);
        expect(instantsOf({ date: dateOn(at, name), hour, minute: min, second: 0 }, name)).toContain(at);
      }),
    );
  });
});
