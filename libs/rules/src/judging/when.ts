import { dateOn, timeOn, type Instant, type Season, type Span } from '@furrowmark/domain';
import type { Figure } from '../outcome.ts';
import { figureIn, hoursIn, minutesIn } from '../words/amounts.ts';
import { say, type Said } from '../words/index.ts';
import { isExact } from './span.ts';

/** `2026-06-03T14:35` on the clock of the operation's zone, as sentences take it. */
export const timeOf = (season: Season, at: Instant): string =>
  `${dateOn(at, season.timeZone)}T${timeOn(at, season.timeZone)}`;

/** In which words a length of time is said: hours, minutes as hours and minutes, bare minutes, days. */
export type SpanUnit = 'hours' | 'minutes' | 'min' | 'days';

const shown: Readonly<Record<SpanUnit, (value: number) => string>> = {
  hours: (hours) => hoursIn(hours, 'en'),
  minutes: (minutes) => hoursIn(minutes / 60, 'en'),
  min: minutesIn,
  days: figureIn,
};

/** A length of time as it is known: `9 h 12 min`, or `between 7 h 30 min and 8 h 30 min`. */
export function spanWords(span: Span, unit: SpanUnit = 'hours'): Said {
  return isExact(span)
    ? say(`${unit}.exactly`, { value: span.value })
    : say(`${unit}.between`, { least: span.least, most: span.most });
}

/** A length of time that differs from a limit by less than the words can show is called so. */
export function besideLimit(span: Span, limit: number, unit: SpanUnit = 'hours'): Said {
  const { value } = span;
  if (!isExact(span) || value === limit || shown[unit](value) !== shown[unit](limit)) return spanWords(span, unit);
  return value > limit ? say(`${unit}.justOver`, { value }) : say(`${unit}.justUnder`, { value });
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
