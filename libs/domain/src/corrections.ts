import { compareWritten } from './order.ts';
import type { LogRecord } from './records/record.ts';

export type Correction = LogRecord<'record.amended'> | LogRecord<'record.struck'>;

export function isCorrection(record: LogRecord): record is Correction {
  return record.type === 'record.amended' || record.type === 'record.struck';
}

/**
 * Which record may correct which. A correction names one record; but a correction of a correction may turn it to
 * another record, so every name that its text holds, at any depth, is kept as a possible one.
 */
export class CorrectionLinks {
  readonly #namedBy = new Map<string, Set<string>>();
  readonly #names = new Map<string, Set<string>>();

  add(correction: Correction): void {
    let from: string = correction.id;
    let content: unknown = correction.data;
    for (;;) {
      const target = member(content, 'recordId');
      if (typeof target !== 'string') return;
      link(this.#namedBy, target, from);
      link(this.#names, from, target);
      const type = member(content, 'type');
      if (type !== 'record.amended' && type !== 'record.struck') return;
      [from, content] = [target, member(content, 'data')];
    }
  }

  correctorsOf(id: string): ReadonlySet<string> {
    return this.#namedBy.get(id) ?? none;
  }

  /** The record itself and everything that its correction may change, at any remove. */
  reach(id: string): ReadonlySet<string> {
    return closure(id, this.#names);
  }

  /** Of the corrections of `record`, those that count against it: in a ring of corrections only a later one does. */
  countingAgainst(record: LogRecord, known: (id: string) => LogRecord | undefined): Correction[] {
    const found: Correction[] = [];
    for (const id of this.correctorsOf(record.id)) {
      const corrector = known(id);
      if (corrector === undefined || !isCorrection(corrector)) continue;
      // A ring: this record, corrected, may in turn change its corrector. Only then does the order decide who counts.
      const inRing = closure(record.id, this.#names).has(id);
      if (!inRing || compareWritten(corrector, record) > 0) found.push(corrector);
    }
    return found;
  }
}

const none: ReadonlySet<string> = new Set();

function link(map: Map<string, Set<string>>, from: string, to: string): void {
  const set = map.get(from);
  if (set === undefined) map.set(from, new Set([to]));
  else set.add(to);
}

function closure(id: string, next: ReadonlyMap<string, ReadonlySet<string>>): Set<string> {
  const reached = new Set([id]);
  // A set walks on over what is added while it is walked.
  for (const each of reached) for (const further of next.get(each) ?? none) reached.add(further);
  return reached;
}

function member(value: unknown, name: string): unknown {
  return typeof value === 'object' && value !== null && name in value ? Reflect.get(value, name) : undefined;
}
