import type { Instant } from '@furrowmark/domain';
import type { Outcome } from '../outcome.ts';
import type { Judgement } from './judgement.ts';

/** An outcome, with what the engine keeps beside it. */
export interface Judged {
  readonly outcome: Outcome;
  readonly since: Instant | undefined;
  readonly next: Judgement['next'];
}
