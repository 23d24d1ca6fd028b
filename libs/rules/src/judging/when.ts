import { dateOn, timeOn, type Instant, type Season, type Span } from '@furrowmark/domain';
import type { Figure } from '../outcome.ts';
import { isExact } from './span.ts';

const monthNames = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
];

/** `3 June 2026`. */
export function dayWords(date: string): string {
  return `${Number(date.slice(8, 10))} ${monthNames[Number(date.slice(5, 7)) - 1] ?? ''} ${date.slice(0, 4)}`;
}

/** `14:35 on 3 June 2026`, in the operation's zone. */
export function timeWords(season: Season, at: Instant): string {
  return `${timeOn(at, season.timeZone)} on ${dayWords(dateOn(at, season.timeZone))}`;
}

/** `9 h 12 min`, `30 days` from a week on; whole minutes, so that a hair above a limit reads `8 h 0 min` and is called "just over" by `overWords`. */
export function hoursWords(hours: number): string {
  const minutes = Math.round(hours * 60);
  // Nobody counts weeks in hours; brews, at most 72 h, stay in hours.
  if (minutes >= 7 * 1440) return `${Math.floor(minutes / 1440)} days`;
  const [h, min] = [Math.floor(minutes / 60), minutes % 60];
  return h === 0 ? `${min} min` : min === 0 ? `${h} h` : `${h} h ${min} min`;
}

/** `1 day`, `15 days`. */
export const countWords = (n: number, one: string, many = `${one}s`): string => `${n} ${n === 1 ? one : many}`;

/** A number to four significant digits, without trailing zeros. */
export function figureWords(value: number): string {
  return String(Number(value.toPrecision(4)));
}

/** A length of time as it is known: `9 h 12 min`, or `between 7 h 30 min and 8 h 30 min`. */
export function spanWords(span: Span, words: (value: number) => string = hoursWords): string {
  return isExact(span) ? words(span.value) : `between ${words(span.least)} and ${words(span.most)}`;
}

/** Hours that differ from a limit by less than the words can show are called so. */
export function besideLimit(span: Span, limit: number, words: (value: number) => string = hoursWords): string {
  const said = spanWords(span, words);
  if (!isExact(span) || span.value === limit || said !== words(limit)) return said;
  return `just ${span.value > limit ? 'over' : 'under'} ${said}`;
}

/** A figure from a span: its range only where the clock was unsure. */
export function spanFigure(
  name: string,
  span: Span,
  unit: string,
  compared: { readonly advised?: number; readonly limit?: number } = {},
): Figure {
  return {
    name,
    value: span.value,
    unit,
    ...(isExact(span) ? {} : { range: [span.least, span.most] as const }),
    ...compared,
  };
}
