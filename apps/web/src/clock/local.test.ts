import { describe, expect, it } from '@jest/globals';
import { fromLocal, localText } from './local.ts';
import { clockText, dateText, dayText, spanText, whenText, zoneText } from './text.ts';

const newYork = 'America/New_York';
const at = (text: string): number => Date.parse(text);

describe('the operation’s own clock', () => {
  it('shows and reads summer and winter time', () => {
    expect(localText(at('2026-06-03T10:10:00Z'), newYork)).toBe('2026-06-03T06:10');
    expect(localText(at('2026-12-03T11:10:00Z'), newYork)).toBe('2026-12-03T06:10');
    expect(fromLocal('2026-06-03T06:10', newYork)).toBe(at('2026-06-03T10:10:00Z'));
    expect(fromLocal('2026-12-03T06:10', newYork)).toBe(at('2026-12-03T11:10:00Z'));
  });
  // Clocks in the United States go back on the first Sunday of November (Energy Policy Act of 2005): 1 November 2026.
  it('takes the first of an hour that comes twice', () => {
    expect(fromLocal('2026-11-01T01:30', newYork)).toBe(at('2026-11-01T05:30:00Z'));
  });
  // And forward on the second Sunday of March: 8 March 2026 has no 02:30.
  it('takes a time that the clock skips for one that exists', () => {
    const found = fromLocal('2026-03-08T02:30', newYork);
    expect([at('2026-03-08T06:30:00Z'), at('2026-03-08T07:30:00Z')]).toContain(found);
  });
  it('reads nothing out of nothing', () => {
    expect(fromLocal('', newYork)).toBeNull();
  });
});

describe('times in words', () => {
  it('says the day only where it is not today', () => {
    const now = at('2026-06-03T20:00:00Z');
    expect(whenText(at('2026-06-03T10:10:00Z'), newYork, 'en', now)).toBe('06:10');
    expect(whenText(at('2026-06-03T03:10:00Z'), newYork, 'en', now)).toMatch(/2.*23:10$/);
  });
  it('writes a date of the records as people read it, the same day in every zone', () => {
    const now = at('2026-06-03T20:00:00Z');
    expect(dateText('2027-12-31', 'en', now)).toBe('Fri, Dec 31, 2027');
    expect(dateText('2026-06-05', 'es', now)).toBe('vie, 5 de jun');
  });
  it('names the zone, as the same hour may come twice', () => {
    expect(zoneText(at('2026-11-01T05:30:00Z'), newYork, 'en')).toBe('EDT');
    expect(zoneText(at('2026-11-01T06:30:00Z'), newYork, 'en')).toBe('EST');
  });
  it.each([
    [45 * 60_000, '45 min'],
    [60 * 60_000, '1 h 00'],
    [(19 * 60 + 20) * 60_000, '19 h 20'],
    [76 * 3_600_000, '3 d 4 h'],
    [-5, '0 min'],
  ])('%d ms is %s', (ms, text) => {
    expect(spanText(ms)).toBe(text);
  });
});

// Beside the Unicode CLDR, as Node carries it.
describe('times and days as the languages write them', () => {
  const now = at('2026-06-15T12:00:00Z');
  const moments = Array.from({ length: 500 }, (_, i) => at('2024-01-01T00:30:00Z') + i * 59 * 3_600_000);
  const day = { weekday: 'short', day: 'numeric', month: 'short' } as const;
  it.each([
    ['en', 'America/Chicago'],
    ['es', 'America/Mexico_City'],
    ['en', 'Asia/Kathmandu'],
    ['es', 'Pacific/Apia'],
  ] as const)('%s in %s', (language, timeZone) => {
    const format = (options: Intl.DateTimeFormatOptions, moment: number): string =>
      new Intl.DateTimeFormat(`${language}-US`, { timeZone, ...options }).format(moment);
    for (const moment of moments) {
      expect(clockText(moment, timeZone)).toBe(
        format({ hour: '2-digit', minute: '2-digit', hourCycle: 'h23' }, moment),
      );
      const year = format({ year: 'numeric' }, moment) !== '2026';
      expect(dayText(moment, timeZone, language, now)).toBe(format(year ? { ...day, year: 'numeric' } : day, moment));
    }
  });
});
