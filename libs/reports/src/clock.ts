import { addDays, dateOn, startOfDay, timeOn, zonedText, type Instant } from '@furrowmark/domain';

const hourMs = 3_600_000;

/** The same wall-clock time happens again within an hour: the hour that is lived twice in autumn. */
function isAmbiguous(at: Instant, timeZone: string): boolean {
  const wall = `${dateOn(at, timeZone)} ${timeOn(at, timeZone)}`;
  return [-hourMs, -hourMs / 2, hourMs / 2, hourMs].some(
    (shift) => `${dateOn(at + shift, timeZone)} ${timeOn(at + shift, timeZone)}` === wall,
  );
}

/** `2026-04-21 16:30` in the zone; with the offset behind it where that wall-clock time happened twice. */
export function localTime(at: Instant, timeZone: string): string {
  const text = `${dateOn(at, timeZone)} ${timeOn(at, timeZone)}`;
  return isAmbiguous(at, timeZone) ? `${text} ${zonedText(at, timeZone).slice(-6)}` : text;
}

/** One tick of a time axis. */
export interface Tick {
  readonly at: Instant;
  /** `06:00`, or the date at the start of a local day. */
  readonly label: string;
  readonly isDay: boolean;
}

const hourSteps = [1, 2, 3, 6, 12] as const;
const daySteps = [1, 2, 3, 7, 14, 30, 60, 90, 180, 365] as const;

/** Ticks on round local hours or days between two instants, at most `most` of them where that is possible. */
export function axisTicks(from: Instant, to: Instant, timeZone: string, most: number): readonly Tick[] {
  const hours = (to - from) / hourMs;
  const step = hourSteps.find((each) => hours / each <= most);
  const dayStep = step === undefined ? (daySteps.find((each) => hours / 24 / each <= most) ?? 365) : 1;
  const ticks: Tick[] = [];
  const add = (at: Instant, label: string, isDay: boolean): void => {
    if (at >= from && at <= to) ticks.push({ at, label, isDay });
  };
  const last = dateOn(to, timeZone);
  for (let day = dateOn(from, timeZone); day <= last; day = addDays(day, dayStep)) {
    const start = startOfDay(day, timeZone);
    add(start, day, true);
    if (step === undefined) continue;
    const next = startOfDay(addDays(day, 1), timeZone);
    // Hour by hour, so that round local hours stay round on a day with 23 or 25 of them.
    for (let at = start + hourMs; at < next; at += hourMs) {
      const clock = timeOn(at, timeZone);
      if (clock.endsWith(':00') && Number(clock.slice(0, 2)) % step === 0) add(at, clock, false);
    }
  }
  return ticks;
}
