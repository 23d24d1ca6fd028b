import type { Application } from '../facts/types.ts';
import type { Decimal } from '../quantity/decimal.ts';
import { add, type Amounts } from './amounts.ts';
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
  readonly #steps = new Map<string, Step & { readonly amounts: Map<string, Decimal> }>();
  readonly arrivals: Arrival[] = [];
  readonly ends: End[] = [];
  readonly gaps: Gap[] = [];

  get steps(): readonly Step[] {
    return [...this.#steps.values()];
  }

  /** Notes a step. What one record brings the same way several times (two crops of a field, two bags of a lot) is one. */
  step(from: TraceRef, to: TraceRef, recordId: string, amounts: Amounts): void {
    const key = `${from.kind} ${from.id} ${to.kind} ${to.id} ${recordId}`;
    const known = this.#steps.get(key);
    if (known === undefined) this.#steps.set(key, { from, to, recordId, amounts: new Map(amounts) });
    else add(known.amounts, amounts);
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
