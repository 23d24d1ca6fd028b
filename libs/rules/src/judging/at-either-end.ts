import type { Instant, Moment } from '@furrowmark/domain';
import type { Judgement } from '../engine/judgement.ts';
import { either } from './order-unsure.ts';

/**
 * Judges by a moment that may be unsure: as it was recorded, and at both its ends. Where an end says something else, it
 * cannot be told. An exact moment is judged once.
 */
export function atEitherEnd(moment: Moment, judge: (at: Instant) => Judgement): Judgement {
  return either(moment.at, moment.from === moment.to ? [] : [moment.from, moment.to], judge);
}
