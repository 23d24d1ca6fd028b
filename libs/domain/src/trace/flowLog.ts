import type { Application } from '../facts/types.ts';
import type { Decimal } from '../quantity/decimal.ts';
import { add, type Amounts } from './amounts.ts';
import { Told } from './told.ts';
import type { TraceEnd, TraceRef } from './types.ts';

export interface Step {
  readonly from: TraceRef;
  readonly to: TraceRef;
  readonly recordId: string;
  readonly amounts: Amounts;
}

interface Growing extends Step {
  readonly amounts: Map<string, Decimal>;
}

/** Something followed came onto the ground that a target of an application is. */
export interface Arrival {
  readonly application: Application;
  readonly target: Application['targets'][number];
  readonly fieldId: string;
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
  readonly #steps = new Told<Growing>();
  readonly arrivals: Arrival[] = [];
  readonly ends: End[] = [];
  readonly gaps: Gap[] = [];

  get steps(): readonly Step[] {
    return this.#steps.all;
  }

  /** Notes a step. What one record brings the same way several times (two crops of a field, two bags of a lot) is one. */
  step(from: TraceRef, to: TraceRef, recordId: string, amounts: Amounts): void {
    const known = this.#steps.find({ from, to, recordId });
    if (known === undefined) this.#steps.add({ from, to, recordId, amounts: new Map(amounts) });
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
