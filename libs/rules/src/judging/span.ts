import type { Moment, Span } from '@furrowmark/domain';

export const hourMs = 3_600_000;
export const minuteMs = 60_000;

/** Time from one moment to another in units of `unitMs`; never below 0, as wide as both moments are unsure. */
export function elapsed(from: Moment, to: Moment, unitMs: number): Span {
  return {
    value: Math.max(0, (to.at - from.at) / unitMs),
    least: Math.max(0, (to.from - from.to) / unitMs),
    most: Math.max(0, (to.to - from.from) / unitMs),
  };
}

export const exactly = (value: number): Span => ({ value, least: value, most: value });

/** A moment known to the millisecond. */
export const momentAt = (at: number): Moment => ({ at, from: at, to: at });

/** Whether the clock behind it was sure. */
export const isExact = (span: Span): boolean => span.least === span.most;

/** How a value that may be a range lies to a limit and the advised value before it. */
export type Standing = 'within' | 'maybePastAdvised' | 'pastAdvised' | 'maybeOver' | 'over';

/**
 * For a limit from above. The limit itself is allowed. A range with the limit inside is undecided (`maybeOver`); one
 * with only the advised value inside is certainly within the limit, and worth a word of caution (`maybePastAdvised`).
 */
export function atMost(span: Span, limit: number, advised = limit): Standing {
  if (span.least > limit) return 'over';
  if (span.most > limit) return 'maybeOver';
  if (span.least > advised) return 'pastAdvised';
  return span.most > advised ? 'maybePastAdvised' : 'within';
}

/** The same for a limit from below. */
export function atLeast(span: Span, limit: number, advised = limit): Standing {
  if (span.most < limit) return 'over';
  if (span.least < limit) return 'maybeOver';
  if (span.most < advised) return 'pastAdvised';
  return span.least < advised ? 'maybePastAdvised' : 'within';
}
