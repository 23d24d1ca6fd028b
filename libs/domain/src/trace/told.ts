import { isSame, type TraceRef } from './types.ts';

/** A step that a record tells. */
interface Telling {
  readonly from: TraceRef;
  readonly to: TraceRef;
  readonly recordId: string;
}

/** Steps in the order in which they were told, each found by its record, which tells few of them. */
export class Told<Step extends Telling> {
  readonly all: Step[] = [];
  readonly #by = new Map<string, Step[]>();

  find({ from, to, recordId }: Telling): Step | undefined {
    return this.#by.get(recordId)?.find((step) => isSame(step.from, from) && isSame(step.to, to));
  }

  add(step: Step): void {
    this.all.push(step);
    const same = this.#by.get(step.recordId);
    if (same === undefined) this.#by.set(step.recordId, [step]);
    else same.push(step);
  }
}
