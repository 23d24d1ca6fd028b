import { Temporal } from 'temporal-polyfill';

/** How far the zone's clock is ahead of UTC at a moment, ms. */
export const offsetAt = (at: number, zone: string): number =>
  Temporal.Instant.fromEpochMilliseconds(Math.floor(at)).toZonedDateTimeISO(zone).offsetNanoseconds / 1e6;

/** `2026-06-03T06:10` on the zone's clock. */
export const localText = (at: number, zone: string): string =>
  new Date(at + offsetAt(at, zone)).toISOString().slice(0, 16);

/** The instant at which the zone's clock shows this; of an hour that comes twice, the first. */
export function fromLocal(text: string, zone: string): number | null {
  const utc = /^\d{4}-\d\d-\d\dT\d\d:\d\d$/.test(text) ? Date.parse(`${text}:00Z`) : NaN;
  if (Number.isNaN(utc)) return null;
  const first = utc - offsetAt(utc - 12 * 3_600_000, zone);
  return first + offsetAt(first, zone) === utc ? first : utc - offsetAt(utc, zone);
}
