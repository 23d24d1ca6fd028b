import type { Moment } from '@furrowmark/domain';
import { saidBy, unknown, type Judgement } from '../engine/judgement.ts';
import { say } from '../words/index.ts';

/** How the order of two times is taken where it is not sure: as it was recorded, only where it is sure, or wherever it may be. */
export type Order = 'asRecorded' | 'surely' | 'perhaps';

/** Whether a time lies at another or after it. */
export const notBefore = (how: Order, time: Moment, other: Moment): boolean =>
  how === 'asRecorded' ? time.at >= other.at : how === 'surely' ? time.from >= other.to : time.to >= other.from;

/** Whether a time lies after another, not at it. */
export const after = (how: Order, time: Moment, other: Moment): boolean =>
  how === 'asRecorded' ? time.at > other.at : how === 'surely' ? time.from > other.to : time.to > other.from;

/** Judges as it was recorded; where another order, that the times allow, gives another outcome, it cannot be told. */
export function either<T>(recorded: T, others: readonly T[], judge: (how: T) => Judgement): Judgement {
  const judgement = judge(recorded);
  const { outcome, limits, message, figures, recordIds } = judgement;
  if (others.every((how) => judge(how).outcome === outcome)) return judgement;
  return unknown(limits, () => say('common.timeUnsure', { said: saidBy(message) }), { figures, recordIds });
}
