import type { Instant } from '../facts/time.ts';

const rfc3339 = /^(\d{4})-(\d\d)-(\d\d)[Tt ](\d\d):(\d\d):(\d\d)(?:\.(\d+))?(?:[Zz]|([+-])(\d\d):(\d\d))$/;

/** The instant, or null where the text is not RFC 3339 with an offset (a 30th of February included). */
export function parseInstant(text: string): Instant | null {
  const parts = rfc3339.exec(text);
  if (parts === null) return null;
  const [, year, month, day, hour, minute, second, fraction, sign, offsetHour, offsetMinute] = parts;
  const [mo, d, h, mi, s] = [Number(month), Number(day), Number(hour), Number(minute), Number(second)];
  // 60 is a leap second; it counts as the first moment of the next minute, as clocks without leap seconds show it.
  if (mo < 1 || mo > 12 || d < 1 || d > daysIn(Number(year), mo) || h > 23 || mi > 59 || s > 60) return null;
  const offset = sign === undefined ? 0 : (sign === '-' ? -1 : 1) * (Number(offsetHour) * 60 + Number(offsetMinute));
  if (Number(offsetHour ?? 0) > 23 || Number(offsetMinute ?? 0) > 59) return null;
  const whole = utc(Number(year), mo, d, h, mi, s) - offset * 60_000;
  return fraction === undefined ? whole : whole + Number(`0.${fraction}`) * 1000;
}

/**
 * Milliseconds since 1970-01-01T00:00Z of an RFC 3339 text, finer digits kept as a fraction (to about 0.0002 ms).
 * Throws RangeError where the text is not one: records were checked before they got here.
 */
export function instantOf(text: string): Instant {
  const instant = parseInstant(text);
  if (instant === null) throw new RangeError(`not an RFC 3339 time with an offset: ${text}`);
  return instant;
}

/** RFC 3339 in UTC, to the millisecond: `2026-06-03T11:10:00.000Z`. */
export function utcText(instant: Instant): string {
  return new Date(instant).toISOString();
}

function utc(year: number, month: number, day: number, hour: number, minute: number, second: number): number {
  if (year >= 100) return Date.UTC(year, month - 1, day, hour, minute, second);
  // Date.UTC would take 0–99 for 1900–1999.
  const date = new Date(Date.UTC(2000, month - 1, day, hour, minute, second));
  date.setUTCFullYear(year, month - 1, day);
  return date.getTime();
}

/** Days in a month (1–12) of the Gregorian calendar. */
export function daysIn(year: number, month: number): number {
  if (month === 2) return year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0) ? 29 : 28;
  return month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31;
}

/** Minutes east of UTC that an RFC 3339 text was written with. */
export function offsetMinutesOf(text: string): number {
  const parts = /([+-])(\d\d):(\d\d)$/.exec(text);
  return parts === null ? 0 : (parts[1] === '-' ? -1 : 1) * (Number(parts[2]) * 60 + Number(parts[3]));
}

/** RFC 3339 to the second, in a given offset: for answers that keep the offset of the question. */
export function textWithOffset(instant: Instant, offsetMinutes: number): string {
  const local = new Date(Math.round(instant / 1000) * 1000 + offsetMinutes * 60_000).toISOString().slice(0, 19);
  if (offsetMinutes === 0) return `${local}Z`;
  const size = Math.abs(offsetMinutes);
  const [hours, minutes] = [Math.floor(size / 60), size % 60].map((n) => String(n).padStart(2, '0'));
  return `${local}${offsetMinutes < 0 ? '-' : '+'}${hours ?? ''}:${minutes ?? ''}`;
}
