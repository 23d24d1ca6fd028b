import type { Outcome, Verdict } from './outcome.ts';

const asksForAnswer: ReadonlySet<Verdict> = new Set(['broken', 'caution', 'unknown']);

/** An outcome that asks for an answer: broken, caution or unknown. A deadline (`due`) is none. */
export const isFinding = (outcome: Outcome): boolean => asksForAnswer.has(outcome.outcome);

/**
 * Whether what a finding said of the records as first written (undefined: nothing, or none was corrected) is still so.
 * A limit that was broken stands while it is broken or cannot be told; back inside it, past the advised value, it does not.
 */
export const stillStands = (first: Outcome | undefined, now: Outcome): boolean =>
  isFinding(now) && !(first?.outcome === 'broken' && now.outcome === 'caution');
