import type { Instant } from '@furrowmark/domain';
import type { Outcome } from '../outcome.ts';

/** An outcome, with what the engine keeps beside it. */
export interface Judged {
  readonly outcome: Outcome;
  readonly since: Instant | undefined;
  readonly next: { readonly at: Instant; readonly what: string } | undefined;
}
