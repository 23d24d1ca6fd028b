import type { Application } from '../facts/types.ts';
import type { Amounts } from './amounts.ts';
import type { TraceEnd, TraceRef } from './types.ts';

export interface Step {
  readonly from: TraceRef;
  readonly to: TraceRef;
  readonly recordId: string;
  readonly amounts: Amounts;
}

/** Something followed came onto a target of an application. */
export interface Arrival {
  readonly application: Application;
  readonly target: Application['targets'][number];
  readonly amounts: Amounts;
}

export interface End extends Omit<TraceEnd, 'quantity' | 'share'> {
  readonly amounts: Amounts;
}

export interface Gap {
  readonly id: string;
  readonly why: string;
  readonly amounts?: Amounts;
}

/** What a trace meets on its way. */
export class FlowLog {
  readonly steps: Step[] = [];
  readonly arrivals: Arrival[] = [];
  readonly ends: End[] = [];
  readonly gaps: Gap[] = [];

  step(from: TraceRef, to: TraceRef, recordId: string, amounts: Amounts): void {
    this.steps.push({ from, to, recordId, amounts });
  }

  /** Notes where something ended; nothing where there is no amount of it. */
  end(kind: End['kind'], at: TraceRef, amounts: Amounts, why: string, recordId?: string): void {
    if ([...amounts.values()].every((amount) => amount.isZero())) return;
    this.ends.push({ kind, at, amounts, why, ...(recordId === undefined ? {} : { recordId }) });
  }

  gap(id: string, why: string, amounts?: Amounts): void {
    if (this.gaps.some((gap) => gap.id === id && gap.why === why)) return;
    this.gaps.push({ id, why, ...(amounts && { amounts }) });
  }
}
