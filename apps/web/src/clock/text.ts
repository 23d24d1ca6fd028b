import type { Language } from '../words/catalogue.ts';
import { localText, offsetAt } from './local.ts';
import { months, weekdays } from './names.ts';

/** Time of day in the zone: `06:10`. Twenty-four hours: nobody takes ten at night for ten in the morning. */
export const clockText = (at: number, zone: string): string => localText(at, zone).slice(-5);

const dayKey = (at: number, zone: string): string => localText(at, zone).slice(0, -6);

/** `Wed, Jun 3`; with the year where it is not this one. */
export function dayText(at: number, zone: string, language: Language, now: number = Date.now()): string {
  // Its parts in UTC are those of the zone's clock.
  const local = new Date(at + offsetAt(at, zone));
  const year = local.getUTCFullYear();
  const day = String(local.getUTCDate());
  const month = months[language][local.getUTCMonth()] ?? '';
  const weekday = weekdays[language][local.getUTCDay()] ?? '';
  const thisYear = dayKey(at, zone).slice(0, -6) === dayKey(now, zone).slice(0, -6);
  if (language === 'es') return `${weekday}, ${day} de ${month}${thisYear ? '' : ` de ${String(year)}`}`;
  return `${weekday}, ${month} ${day}${thisYear ? '' : `, ${String(year)}`}`;
}

/** A date as records have it, as people read it: `2027-12-31` is `Fri, Dec 31, 2027`. */
export const dateText = (date: string, language: Language, now: number = Date.now()): string =>
  dayText(Date.parse(`${date}T12:00:00Z`), 'UTC', language, now);

/** `06:10` today, `Tue 2 Jun 06:10` on another day. */
export function whenText(at: number, zone: string, language: Language, now: number): string {
  const clock = clockText(at, zone);
  return dayKey(at, zone) === dayKey(now, zone) ? clock : `${dayText(at, zone, language, now)} ${clock}`;
}

/** The zone's short name at that moment: `EDT`. */
export function zoneText(at: number, zone: string, language: Language): string {
  const parts = new Intl.DateTimeFormat(language === 'es' ? 'es-US' : 'en-US', {
    ...{ timeZone: zone, timeZoneName: 'short', hour: 'numeric' },
  }).formatToParts(at);
  return parts.find(({ type }) => type === 'timeZoneName')?.value ?? zone;
}

/** Kept on one line: `2 h 59`. */
export const together = (text: string): string => text.replaceAll(' ', '\u00A0');

/** A length of time: `19 h 20`, `45 min`, `3 d 4 h`. Never negative. */
export function spanText(ms: number): string {
  const minutes = Math.max(0, Math.round(ms / 60_000));
  if (minutes < 60) return `${String(minutes)} min`;
  const hours = Math.floor(minutes / 60);
  if (hours < 72) return `${String(hours)} h ${String(minutes % 60).padStart(2, '0')}`;
  return `${String(Math.floor(hours / 24))} d ${String(hours % 24)} h`;
}
