import { Temporal } from 'temporal-polyfill';

/** Milliseconds since 1970. */
type Instant = number;

const two = (n: number): string => String(n).padStart(2, '0');

const zoned = (at: Instant, timeZone: string): Temporal.ZonedDateTime =>
  Temporal.Instant.fromEpochMilliseconds(Math.floor(at)).toZonedDateTimeISO(timeZone);

/** Two instants may share this wall-clock time (the hour that is lived twice in autumn): then the offset must be said. */
function isAmbiguous(local: Temporal.ZonedDateTime): boolean {
  const wall = local.toPlainDateTime();
  const earlier = wall.toZonedDateTime(local.timeZoneId, { disambiguation: 'earlier' });
  return (
    earlier.epochMilliseconds !== wall.toZonedDateTime(local.timeZoneId, { disambiguation: 'later' }).epochMilliseconds
  );
}

/** `2026-04-21 16:30` in the zone; with the offset behind it where that wall-clock time happened twice. */
export function localTime(at: Instant, timeZone: string): string {
  const local = zoned(at, timeZone);
  const text = `${localDate(at, timeZone)} ${two(local.hour)}:${two(local.minute)}`;
  return isAmbiguous(local) ? `${text} ${local.offset}` : text;
}

/** `16:30` in the zone. */
export function localClock(at: Instant, timeZone: string): string {
  const local = zoned(at, timeZone);
  return `${two(local.hour)}:${two(local.minute)}`;
}

/** `2026-04-21` in the zone. */
export function localDate(at: Instant, timeZone: string): string {
  return zoned(at, timeZone).toPlainDate().toString();
}

/** RFC 3339 with the zone's offset, to the second: what CSV and JSON carry. */
export function localStamp(at: Instant, timeZone: string): string {
  return zoned(at, timeZone).toString({ timeZoneName: 'never', smallestUnit: 'second' });
}

/** The instant at which a local day begins. */
export function startOfDay(date: string, timeZone: string): Instant {
  return Temporal.PlainDate.from(date).toZonedDateTime(timeZone).epochMilliseconds;
}

/** The instant at which the day after a local day begins: the end, exclusive, of a period that includes it. */
export function endOfDay(date: string, timeZone: string): Instant {
  return Temporal.PlainDate.from(date).add({ days: 1 }).toZonedDateTime(timeZone).epochMilliseconds;
}

/** Whole days from one date to another; negative when the second comes first. */
export function daysBetween(from: string, to: string): number {
  return Temporal.PlainDate.from(from).until(Temporal.PlainDate.from(to)).days;
}

/** The date so many days later. */
export function addDays(date: string, days: number): string {
  return Temporal.PlainDate.from(date).add({ days }).toString();
}

/** One tick of a time axis. */
export interface Tick {
  readonly at: Instant;
  /** `06:00`, or the date at a local midnight. */
  readonly label: string;
  readonly isDay: boolean;
}

const hourSteps = [1, 2, 3, 6, 12] as const;
const dayStepsInDays = [1, 2, 7, 14, 30, 60, 90, 180, 365] as const;
const hourMs = 3_600_000;

/** Ticks on round local hours or days between two instants, at most `most` of them where that is possible. */
export function axisTicks(from: Instant, to: Instant, timeZone: string, most: number): readonly Tick[] {
  const hours = (to - from) / hourMs;
  const step = hourSteps.find((h) => hours / h <= most);
  const ticks: Tick[] = [];
  const add = (local: Temporal.ZonedDateTime): void => {
    const at = local.epochMilliseconds;
    if (at < from || at > to) return;
    const isDay = local.hour === 0 && local.minute === 0;
    ticks.push({
      at,
      isDay,
      label: isDay ? local.toPlainDate().toString() : `${two(local.hour)}:${two(local.minute)}`,
    });
  };
  let day = zoned(from, timeZone).startOfDay();
  if (step !== undefined) {
    for (; day.epochMilliseconds <= to; day = day.add({ days: 1 }).startOfDay()) {
      for (let hour = 0; hour < 24; hour += step) add(day.with({ hour }));
    }
    return ticks;
  }
  const days = dayStepsInDays.find((d) => hours / 24 / d <= most) ?? 365;
  for (; day.epochMilliseconds <= to; day = day.add({ days }).startOfDay()) add(day);
  return ticks;
}
