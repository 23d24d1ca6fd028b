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
  readonly #namedBy: Links = new Map();
  readonly #names: Links = new Map();

  add(correction: Correction): void {
    for (const [from, target] of linksOf(correction)) {
      link(this.#namedBy, target, from);
      link(this.#names, from, target);
    }
  }

  /** Takes a correction back, as though it had never been added. */
  remove(correction: Correction): void {
    for (const [from, target] of linksOf(correction)) {
      unlink(this.#namedBy, target, from);
      unlink(this.#names, from, target);
    }
  }

  correctorsOf(id: string): ReadonlyMap<string, number> {
    return this.#namedBy.get(id) ?? none;
  }

  /** The record itself and everything that its correction may change, at any remove. */
  reach(id: string): ReadonlySet<string> {
    return closure(id, this.#names);
  }

  /** Of the corrections of `record`, those that count against it: in a ring of corrections only a later one does. */
  countingAgainst(record: LogRecord, known: (id: string) => LogRecord | undefined): Correction[] {
    const found: Correction[] = [];
    for (const id of this.correctorsOf(record.id).keys()) {
      const corrector = known(id);
      if (corrector === undefined || !isCorrection(corrector)) continue;
      // A ring: this record, corrected, may in turn change its corrector. Only then does the order decide who counts.
      const inRing = closure(record.id, this.#names).has(id);
      if (!inRing || compareWritten(corrector, record) > 0) found.push(corrector);
    }
    return found;
  }
}

/** From each id the ids it is linked with, and by how many corrections. */
type Links = Map<string, Map<string, number>>;
const none: ReadonlyMap<string, number> = new Map();

/** From which record to which a correction may lead: itself to its target, that on to what it may be turned to. */
function* linksOf(correction: Correction): Generator<readonly [string, string]> {
  let from: string = correction.id;
  let content: unknown = correction.data;
  for (;;) {
    const target = member(content, 'recordId');
    if (typeof target !== 'string') return;
    yield [from, target];
    const type = member(content, 'type');
    if (type !== 'record.amended' && type !== 'record.struck') return;
    [from, content] = [target, member(content, 'data')];
  }
}

function link(links: Links, from: string, to: string): void {
  let targets = links.get(from);
  if (targets === undefined) links.set(from, (targets = new Map()));
  targets.set(to, (targets.get(to) ?? 0) + 1);
}

function unlink(links: Links, from: string, to: string): void {
  const targets = links.get(from);
  const count = targets?.get(to) ?? 0;
  if (count > 1) targets?.set(to, count - 1);
  else targets?.delete(to);
}

function closure(id: string, next: ReadonlyMap<string, ReadonlyMap<string, number>>): Set<string> {
  const reached = new Set([id]);
  // A set walks on over what is added while it is walked.
  for (const each of reached) for (const further of (next.get(each) ?? none).keys()) reached.add(further);
  return reached;
}

function member(value: unknown, name: string): unknown {
  return typeof value === 'object' && value !== null && name in value ? Reflect.get(value, name) : undefined;
}
