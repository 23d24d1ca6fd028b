import { Temporal } from 'temporal-polyfill';
import type { Instant } from '../facts/time.ts';
import { daysIn } from './instant.ts';
import { spanAt } from './zone.ts';

/** A day of the Gregorian calendar, `YYYY-MM-DD`. Dates in that form sort as text. */
export type DateText = string;

const dayLength = 86_400_000;
const texts = new Map<number, DateText>();

/** Day number, 0 = 1970-01-01. */
function numberOf(date: DateText): number {
  const parts = /^(\d{4})-(\d\d)-(\d\d)$/.exec(date);
  const [year, month, day] = [Number(parts?.[1]), Number(parts?.[2]), Number(parts?.[3])];
  if (parts === null || month < 1 || month > 12 || day < 1 || day > daysIn(year, month)) {
    throw new RangeError(`not a date YYYY-MM-DD: ${date}`);
  }
  return Math.round(new Date(`${date}T00:00:00Z`).getTime() / dayLength);
}

function textOf(day: number): DateText {
  let text = texts.get(day);
  if (text === undefined) {
    text = new Date(day * dayLength).toISOString().slice(0, 10);
    if (texts.size >= 100_000) texts.clear();
    texts.set(day, text);
  }
  return text;
}

/** Whether the text is a day of the calendar. */
export function isDate(text: string): boolean {
  const parts = /^(\d{4})-(\d\d)-(\d\d)$/.exec(text);
  if (parts === null) return false;
  const [year, month, day] = [Number(parts[1]), Number(parts[2]), Number(parts[3])];
  return month >= 1 && month <= 12 && day >= 1 && day <= daysIn(year, month);
}

/** The day it is in the zone at that instant. */
export function dateOn(instant: Instant, zone: string): DateText {
  return textOf(Math.floor((instant + spanAt(instant, zone).offset) / dayLength));
}

const starts = new Map<string, Instant>();

/** The day's first instant in the zone: midnight, or where the clocks skip it, the moment they skip to. */
export function startOfDay(date: DateText, zone: string): Instant {
  const key = `${date} ${zone}`;
  let start = starts.get(key);
  if (start === undefined) {
    start = Temporal.PlainDate.from(date).toZonedDateTime(zone).epochMilliseconds;
    if (starts.size >= 50_000) starts.clear();
    starts.set(key, start);
  }
  return start;
}

/** The end of the day in the zone, exclusive: the next day's start. A day of a clock change has 23 or 25 hours. */
export function endOfDay(date: DateText, zone: string): Instant {
  return startOfDay(addDays(date, 1), zone);
}

/** The date n days later (earlier where n is negative). */
export function addDays(date: DateText, n: number): DateText {
  return textOf(numberOf(date) + n);
}

/** The date n months later; where that month is shorter, its last day (29 February + 36 months = 28 February). */
export function addMonths(date: DateText, n: number): DateText {
  numberOf(date);
  const months = Number(date.slice(0, 4)) * 12 + Number(date.slice(5, 7)) - 1 + n;
  const year = Math.floor(months / 12);
  const month = months - year * 12 + 1;
  const day = Math.min(Number(date.slice(8, 10)), daysIn(year, month));
  return `${String(year).padStart(4, '0')}-${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}`;
}

/** Days from a to b: 1 from one day to the next, negative backwards. */
export function daysBetween(a: DateText, b: DateText): number {
  return numberOf(b) - numberOf(a);
}
