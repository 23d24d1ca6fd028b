import type { Instant } from '../facts/time.ts';

const RFC3339 = /^(\d{4})-(\d{2})-(\d{2})[Tt](\d{2}):(\d{2}):(\d{2})(\.\d+)?([Zz]|[+-](?:[01]\d|2[0-3]):[0-5]\d)$/;
const DATE = /^(\d{4})-(\d{2})-(\d{2})$/;

/** Days of a month, `month` from 1. Day 0 of the next month is the last day of this one. */
function daysIn(year: number, month: number): number {
  if (month === 2) return year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0) ? 29 : 28;
  return month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31;
}

function inCalendar(year: string, month: string, day: string): boolean {
  const m = Number(month);
  const d = Number(day);
  return m >= 1 && m <= 12 && d >= 1 && d <= daysIn(Number(year), m);
}

/**
 * The instant that an RFC 3339 text with offset names, in milliseconds since 1970 (a fraction where the text has more
 * digits), or null where it names none. A leap second (`:60`) is refused: no clock on a farm shows one.
 */
export function instantOf(text: string): Instant | null {
  const parts = RFC3339.exec(text);
  if (!parts) return null;
  const [, year = '', month = '', day = '', hour = '', minute = '', second = '', fraction, offset = ''] = parts;
  if (!inCalendar(year, month, day)) return null;
  if (Number(hour) > 23 || Number(minute) > 59 || Number(second) > 59) return null;
  const whole = Date.parse(`${year}-${month}-${day}T${hour}:${minute}:${second}${offset.toUpperCase()}`);
  return fraction === undefined ? whole : whole + Number(fraction) * 1000;
}

/** Whether the text is a day of the calendar, `YYYY-MM-DD`. */
export function isCalendarDate(text: string): boolean {
  const parts = DATE.exec(text);
  return parts !== null && inCalendar(parts[1] ?? '', parts[2] ?? '', parts[3] ?? '');
}
