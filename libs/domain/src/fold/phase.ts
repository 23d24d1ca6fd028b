import type { Moment } from '../facts/time.ts';
import type { Phase } from '../facts/types.ts';

/** Where in its life a batch stands, from whatever of it is known. */
export function phaseOf(batch: {
  readonly closed: boolean;
  readonly reviewed: boolean;
  readonly brewStart: Moment | null;
  readonly receivedTea: boolean;
  readonly filled: boolean;
  readonly airRunning: boolean;
  /** The air was on once and is off now. */
  readonly airOff: boolean;
}): Phase {
  if (batch.closed) return batch.reviewed ? 'reviewed' : 'closed';
  if (batch.brewStart !== null) return batch.airOff ? 'holding' : 'brewing';
  if (batch.airRunning) return 'aerating';
  // Tea that came from elsewhere is tea already.
  if (batch.receivedTea) return 'holding';
  return batch.filled ? 'filled' : 'open';
}
