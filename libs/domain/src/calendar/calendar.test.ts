import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import {
  addDays,
  addMonths,
  dateOn,
  daysBetween,
  endOfDay,
  instantOf,
  isDate,
  isZone,
  localText,
  offsetMinutesOf,
  parseInstant,
  startOfDay,
  textWithOffset,
  timeOn,
  utcText,
  zonedText,
} from './index.ts';

const hour = 3_600_000;
const zones = [
  'UTC',
  'America/Chicago',
  'America/Phoenix',
  'America/St_Johns',
  'America/Sao_Paulo',
  'Europe/Berlin',
  'Asia/Kathmandu',
  'Australia/Lord_Howe',
  'Pacific/Apia',
  'Africa/Casablanca',
];
const instant = fc.integer({ min: Date.UTC(1970, 0, 1), max: Date.UTC(2070, 0, 1) });
const zone = fc.constantFrom(...zones);

describe('instants', () => {
  it('reads the examples of RFC 3339, section 5.8', () => {
    expect(instantOf('1985-04-12T23:20:50.52Z')).toBe(Date.UTC(1985, 3, 12, 23, 20, 50, 520));
    expect(instantOf('1996-12-19T16:39:57-08:00')).toBe(instantOf('1996-12-20T00:39:57Z'));
    expect(instantOf('1990-12-31T23:59:60Z')).toBe(Date.UTC(1991, 0, 1));
    expect(instantOf('1990-12-31T15:59:60-08:00')).toBe(Date.UTC(1991, 0, 1));
    expect(instantOf('1937-01-01T12:00:27.87+00:20')).toBe(Date.UTC(1937, 0, 1, 11, 40, 27, 870));
  });
  it('keeps digits finer than a millisecond', () => {
    expect(instantOf('1970-01-01T00:00:00.0005Z')).toBe(0.5);
  });
  it.each([
    '2026-02-30T00:00:00Z',
    '2028-02-30T00:00:00Z',
    '2026-06-03T06:10:00',
    '2026-13-01T00:00:00Z',
    '2026-06-03',
    '2026-06-03T24:00:00Z',
    'now',
    '2026-06-03T06:10:00+24:00',
  ])('%s is not an instant', (text) => {
    expect(parseInstant(text)).toBeNull();
    expect(() => instantOf(text)).toThrow(RangeError);
  });
  it.each([
    ['2026-01-01T00:00:00Z', '2026-00-01T00:00:00Z'],
    ['2026-12-31T00:00:00Z', '2026-13-01T00:00:00Z'],
    ['2026-06-01T00:00:00Z', '2026-06-00T00:00:00Z'],
    ['2026-06-30T00:00:00Z', '2026-06-31T00:00:00Z'],
    ['2026-06-03T23:00:00Z', '2026-06-03T24:00:00Z'],
    ['2026-06-03T06:59:00Z', '2026-06-03T06:60:00Z'],
    ['2026-06-03T06:10:60Z', '2026-06-03T06:10:61Z'],
    ['2026-06-03T06:10:00+23:00', '2026-06-03T06:10:00+24:00'],
    ['2026-06-03T06:10:00-05:59', '2026-06-03T06:10:00-05:60'],
  ])('%s is the last or first that there is: %s is none', (last, none) => {
    expect(instantOf(last)).not.toBeNaN();
    expect(parseInstant(none)).toBeNull();
  });
  it('years of two digits are those years, not of the nineteen hundreds', () => {
    // Temporal is the outside: it knows no such shortcut.
    for (const text of ['0000-03-01T12:00:00Z', '0099-12-31T23:59:59Z', '0100-01-01T00:00:00Z', '0004-02-29T06:10:07Z'])
      expect([text, instantOf(text)]).toEqual([text, Temporal.Instant.from(text).epochMilliseconds]);
  });
  it('an answer keeps the offset of the question, half hours and west of Greenwich included', () => {
    const at = instantOf('2026-06-03T11:10:00.400Z');
    expect(
      ['+05:30', '-03:30', '-05:00', '+00:20'].map((offset) => offsetMinutesOf(`2026-06-03T06:10:00${offset}`)),
    ).toEqual([...[330, -210, -300, 20]]);
    expect(offsetMinutesOf('2026-06-03T06:10:00Z')).toBe(0);
    expect(textWithOffset(at, 330)).toBe('2026-06-03T16:40:00+05:30');
    expect(textWithOffset(at, -210)).toBe('2026-06-03T07:40:00-03:30');
    expect(textWithOffset(at, 0)).toBe('2026-06-03T11:10:00Z');
    expect(textWithOffset(at + 100, 0)).toBe('2026-06-03T11:10:01Z');
    expect(zonedText(at, 'America/St_Johns')).toBe('2026-06-03T08:40:00-02:30');
    expect(zonedText(at, 'UTC')).toBe('2026-06-03T11:10:00Z');
  });
  it('reads what Temporal writes, in any zone', () => {
    fc.assert(
      fc.property(instant, zone, (at, z) => {
        const text = Temporal.Instant.fromEpochMilliseconds(at).toString({ timeZone: z });
        return instantOf(text) === at && instantOf(utcText(at)) === at;
      }),
    );
  });
});

describe('days of a zone', () => {
  it('agrees with Temporal on the date and time of day, also around clock changes', () => {
    const nearChange = fc
      .tuple(
        fc.constantFrom('2026-03-08', '2026-11-01', '2026-03-29', '2026-10-04', '2011-12-30', '2018-11-04'),
        fc.integer({ min: -36, max: 60 }),
      )
      .map(([date, h]) => Date.parse(`${date}T00:00:00Z`) + h * hour);
    fc.assert(
      fc.property(fc.oneof(instant, nearChange), zone, (at, z) => {
        const there = Temporal.Instant.fromEpochMilliseconds(at).toZonedDateTimeISO(z);
        expect(dateOn(at, z)).toBe(there.toPlainDate().toString());
        expect(timeOn(at, z)).toBe(there.toPlainTime().toString().slice(0, 5));
      }),
      { numRuns: 2000 },
    );
  });
  it('a spring day of the clock change has 23 hours, an autumn one 25', () => {
    expect(endOfDay('2026-03-08', 'America/Chicago') - startOfDay('2026-03-08', 'America/Chicago')).toBe(23 * hour);
    expect(endOfDay('2026-11-01', 'America/Chicago') - startOfDay('2026-11-01', 'America/Chicago')).toBe(25 * hour);
    expect(endOfDay('2026-06-03', 'America/Chicago') - startOfDay('2026-06-03', 'America/Chicago')).toBe(24 * hour);
  });
  it('where midnight is skipped the day starts at one o’clock (São Paulo, 4 November 2018)', () => {
    expect(timeOn(startOfDay('2018-11-04', 'America/Sao_Paulo'), 'America/Sao_Paulo')).toBe('01:00');
  });
  it('the half-open day holds exactly the instants that are on it', () => {
    fc.assert(
      fc.property(instant, zone, (at, z) => {
        const day = dateOn(at, z);
        return startOfDay(day, z) <= at && at < endOfDay(day, z);
      }),
    );
  });
  it('half a millisecond before midnight is still the day before', () => {
    const midnight = startOfDay('2026-03-09', 'America/Chicago');
    expect(dateOn(midnight - 0.5, 'America/Chicago')).toBe('2026-03-08');
  });
  it('a clock change belongs to what follows it, whichever side of it is asked about first', () => {
    const change = instantOf('2026-03-08T09:00:00Z');
    // Zones that nothing above has asked about, so that the first question meets an empty memory.
    expect(timeOn(change, 'America/Denver')).toBe('03:00');
    expect(timeOn(change - hour, 'America/Denver')).toBe('01:00');
    expect(timeOn(change - 0.5, 'America/Boise')).toBe('01:59');
    expect(timeOn(change, 'America/Boise')).toBe('03:00');
  });
  it('is quick enough to ask for every record: some microseconds a date, not a millisecond', () => {
    const start = instantOf('2020-01-01T00:00:00Z');
    const before = process.cpuUsage();
    for (let i = 0; i < 50_000; i++) dateOn(start + i * 3_000_000, zones[i % zones.length] ?? 'UTC');
    expect(process.cpuUsage(before).user / 50_000).toBeLessThan(40);
  });
});

describe('date arithmetic', () => {
  const date = fc.integer({ min: -20_000, max: 40_000 }).map((n) => addDays('1970-01-01', n));
  it('three years from a leap day end on 28 February', () => {
    expect(addMonths('2024-02-29', 36)).toBe('2027-02-28');
    expect(addMonths('2024-02-29', 48)).toBe('2028-02-29');
    expect(addMonths('2026-01-31', 1)).toBe('2026-02-28');
    expect(addMonths('2026-03-31', -1)).toBe('2026-02-28');
    expect(addMonths('2025-11-30', 3)).toBe('2026-02-28');
  });
  it('120 days before a harvest on 1 September is 4 May', () => {
    expect(addDays('2026-09-01', -120)).toBe('2026-05-04');
    expect(daysBetween('2026-05-04', '2026-09-01')).toBe(120);
  });
  it('agrees with Temporal', () => {
    fc.assert(
      fc.property(date, fc.integer({ min: -500, max: 500 }), (d, n) => {
        expect(addMonths(d, n)).toBe(Temporal.PlainDate.from(d).add({ months: n }).toString());
        expect(addDays(d, n)).toBe(Temporal.PlainDate.from(d).add({ days: n }).toString());
        expect(daysBetween(d, addDays(d, n))).toBe(n);
      }),
    );
  });
  it('refuses days that do not exist', () => {
    expect(isDate('2026-02-29')).toBe(false);
    for (const none of ['2026-13-01', '2026-00-10', '2026-01-00', '2026-04-31', '2026-12-32', '1900-02-29'])
      expect([none, isDate(none)]).toEqual([none, false]);
    for (const day of ['2026-12-31', '2026-01-01', '2000-02-29', '2024-02-29', '2026-04-30'])
      expect([day, isDate(day)]).toEqual([day, true]);
    expect([isDate('2028-02-29'), isDate('2028-02-30')]).toEqual([true, false]);
    for (const none of ['2026-02-29', '2026-13-01', '2026-00-10', '2026-01-00', '2026-04-31', '2026-6-3'])
      expect(() => addDays(none, 1)).toThrow(RangeError);
    expect([addDays('2026-12-31', 1), addDays('2026-01-01', -1)]).toEqual(['2027-01-01', '2025-12-31']);
    expect([addMonths('2026-12-31', 0), addMonths('2026-12-15', 1), addMonths('2026-01-15', -1)]).toEqual([
      ...['2026-12-31', '2027-01-15', '2025-12-15'],
    ]);
    expect(() => addMonths('June', 1)).toThrow(RangeError);
  });
});

describe('what people read', () => {
  it('tells the two half past ones of the autumn change apart', () => {
    const first = instantOf('2026-11-01T01:30:00-05:00');
    expect(localText(first, 'America/Chicago')).toBe('2026-11-01 01:30 CDT (UTC-05:00)');
    expect(localText(first + hour, 'America/Chicago')).toBe('2026-11-01 01:30 CST (UTC-06:00)');
  });
  it('gives the offset alone where the zone has no letters', () => {
    expect(localText(instantOf('2026-06-03T11:10:00Z'), 'Europe/Berlin')).toBe('2026-06-03 13:10 UTC+02:00');
    expect(localText(instantOf('2026-06-03T11:10:00Z'), 'UTC')).toBe('2026-06-03 11:10 UTC');
    expect(localText(instantOf('2026-06-03T11:10:00Z'), 'Asia/Kathmandu')).toBe('2026-06-03 16:55 UTC+05:45');
    expect(localText(instantOf('2026-06-03T11:10:00Z'), 'America/St_Johns')).toMatch(
      /^2026-06-03 08:40 .*UTC-02:30\)?$/,
    );
    // A clock on Greenwich in winter has no letters of its own that would say more than UTC.
    expect(localText(instantOf('2026-01-03T11:10:00Z'), 'Europe/London')).toBe('2026-01-03 11:10 UTC');
  });
  it('knows zones by their IANA name only', () => {
    for (const name of zones) expect(isZone(name)).toBe(true);
    for (const name of ['+05:00', 'Mars/Base', '', 'America/Chicago ', '../etc', 'CDT-ish'])
      expect(isZone(name)).toBe(false);
  });
});
