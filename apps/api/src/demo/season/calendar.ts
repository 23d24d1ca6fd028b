import { Temporal } from 'temporal-polyfill';

/** Where the invented operation lies. */
export const timeZone = 'America/New_York';

/** A moment of the season on the farm's own clock, year left out: `06-03 06:10`. */
export type Stamp = string;
/** A day of the season, year left out: `06-03`. */
export type Day = string;

/** The demo looks back on a season that is over: this year's from 15 September on, else last year's. */
export function seasonYear(now: Date): number {
  const today = Temporal.Instant.fromEpochMilliseconds(now.getTime()).toZonedDateTimeISO(timeZone);
  return today.month > 9 || (today.month === 9 && today.day >= 15) ? today.year : today.year - 1;
}

/** RFC 3339 with the farm's offset on that day. */
export function instant(year: number, stamp: Stamp): string {
  return Temporal.PlainDateTime.from(`${year}-${stamp.replace(' ', 'T')}`)
    .toZonedDateTime(timeZone)
    .toString({ timeZoneName: 'never', smallestUnit: 'second' });
}

/** A stamp some minutes later (or earlier). No clock change falls into the season, so wall time may be added. */
export function later(stamp: Stamp, minutes: number): Stamp {
  const moment = Temporal.PlainDateTime.from(`2001-${stamp.replace(' ', 'T')}`).add({ minutes: Math.round(minutes) });
  return moment.toString({ smallestUnit: 'minute' }).slice(5).replace('T', ' ');
}

/** The day after (or some days after). */
export function dayAfter(day: Day, days = 1): Day {
  return Temporal.PlainDate.from(`2001-${day}`).add({ days }).toString().slice(5);
}

/** Minutes from one stamp to another. */
export function minutesBetween(from: Stamp, to: Stamp): number {
  const moment = (stamp: Stamp): Temporal.PlainDateTime =>
    Temporal.PlainDateTime.from(`2001-${stamp.replace(' ', 'T')}`);
  return moment(from).until(moment(to)).total('minutes');
}
