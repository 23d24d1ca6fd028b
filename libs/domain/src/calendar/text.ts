import type { Instant } from '../facts/time.ts';
import { dateOn } from './date.ts';
import { textWithOffset } from './instant.ts';
import { spanAt } from './zone.ts';

const abbreviations = new Map<string, string>();

/** `CDT`; empty where the language has no letters for the zone, only an offset. */
function abbreviation(instant: Instant, zone: string, language: string): string {
  const key = `${language} ${zone} ${String(spanAt(instant, zone).from)}`;
  let name = abbreviations.get(key);
  if (name === undefined) {
    const parts = new Intl.DateTimeFormat(language, { timeZone: zone, timeZoneName: 'short' }).formatToParts(instant);
    const short = parts.find((part) => part.type === 'timeZoneName')?.value ?? '';
    name = /^[A-Z]{2,5}$/.test(short) && short !== 'GMT' && short !== 'UTC' ? short : '';
    if (abbreviations.size >= 10_000) abbreviations.clear();
    abbreviations.set(key, name);
  }
  return name;
}

const twoDigits = (n: number): string => String(n).padStart(2, '0');

/** Time of day in the zone, `06:10`, the minute begun. */
export function timeOn(instant: Instant, zone: string): string {
  const minutes = Math.floor((instant + spanAt(instant, zone).offset) / 60_000);
  const ofDay = ((minutes % 1440) + 1440) % 1440;
  return `${twoDigits(Math.floor(ofDay / 60))}:${twoDigits(ofDay % 60)}`;
}

/** `UTC-05:00`; `UTC` without figures where there is no difference. */
function offsetText(instant: Instant, zone: string): string {
  const minutes = Math.round(spanAt(instant, zone).offset / 60_000);
  if (minutes === 0) return 'UTC';
  const size = Math.abs(minutes);
  return `UTC${minutes < 0 ? '-' : '+'}${twoDigits(Math.floor(size / 60))}:${twoDigits(size % 60)}`;
}

/**
 * Local time that reads one way only: `2026-06-03 06:10 CDT (UTC-05:00)`, `2026-06-03 13:10 UTC+02:00` where the
 * language has no letters for the zone. The hour that a clock change repeats is told apart by the offset.
 */
export function localText(instant: Instant, zone: string, language = 'en-US'): string {
  const letters = abbreviation(instant, zone, language);
  const offset = offsetText(instant, zone);
  const where = letters === '' ? offset : `${letters} (${offset})`;
  return `${dateOn(instant, zone)} ${timeOn(instant, zone)} ${where}`;
}

/** RFC 3339 to the second with the zone's offset at that instant: `2026-06-03T06:10:00-05:00`. */
export function zonedText(instant: Instant, zone: string): string {
  return textWithOffset(instant, Math.round(spanAt(instant, zone).offset / 60_000));
}
