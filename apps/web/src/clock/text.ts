import type { Language } from '../words/catalogue.ts';

const formats = new Map<string, Intl.DateTimeFormat>();

function format(language: Language, zone: string, kind: string, options: Intl.DateTimeFormatOptions) {
  const key = `${language} ${zone} ${kind}`;
  let found = formats.get(key);
  if (found === undefined) {
    found = new Intl.DateTimeFormat(language === 'es' ? 'es-US' : 'en-US', { timeZone: zone, ...options });
    formats.set(key, found);
  }
  return found;
}

/** Time of day in the zone: `06:10`. Twenty-four hours: nobody takes ten at night for ten in the morning. */
export const clockText = (at: number, zone: string, language: Language): string =>
  format(language, zone, 'clock', { hour: '2-digit', minute: '2-digit', hourCycle: 'h23' }).format(at);

const dayKey = (at: number, zone: string): string =>
  format('en', zone, 'day', { year: 'numeric', month: '2-digit', day: '2-digit' }).format(at);

/** `Wed 3 Jun`; with the year where it is not this one. */
export function dayText(at: number, zone: string, language: Language, now: number = Date.now()): string {
  const year = dayKey(at, zone).slice(-4) !== dayKey(now, zone).slice(-4);
  return format(language, zone, year ? 'dayYear' : 'dayShort', {
    weekday: 'short',
    day: 'numeric',
    month: 'short',
    ...(year ? { year: 'numeric' as const } : {}),
  }).format(at);
}

/** A date as records have it, as people read it: `2027-12-31` is `Fri, Dec 31, 2027`. */
export const dateText = (date: string, language: Language, now: number = Date.now()): string =>
  dayText(Date.parse(`${date}T12:00:00Z`), 'UTC', language, now);

/** `06:10` today, `Tue 2 Jun 06:10` on another day. */
export function whenText(at: number, zone: string, language: Language, now: number): string {
  const clock = clockText(at, zone, language);
  return dayKey(at, zone) === dayKey(now, zone) ? clock : `${dayText(at, zone, language, now)} ${clock}`;
}

/** The zone's short name at that moment: `EDT`. */
export function zoneText(at: number, zone: string, language: Language): string {
  const parts = format(language, zone, 'zone', { timeZoneName: 'short', hour: 'numeric' }).formatToParts(at);
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
