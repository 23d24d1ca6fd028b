import type { Instant, Moment } from '@furrowmark/domain';
import { saidBy, unknown, type Judgement } from '../engine/judgement.ts';
import { say } from '../words/index.ts';

/**
 * Judges by a moment that may be unsure: as it was recorded, and at both its ends. Where an end says something else, it
 * cannot be told. An exact moment is judged once.
 */
export function atEitherEnd(moment: Moment, judge: (at: Instant) => Judgement): Judgement {
  const recorded = judge(moment.at);
  if (moment.from === moment.to) return recorded;
  const { outcome, limits, message, figures, recordIds } = recorded;
  if ([moment.from, moment.to].every((at) => judge(at).outcome === outcome)) return recorded;
  return unknown(limits, () => say('common.timeUnsure', { said: saidBy(message) }), { figures, recordIds });
}
