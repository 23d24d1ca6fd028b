import { parseCanonical } from './canonical.ts';
import { originOf, readEnvelope } from './envelope.ts';
import type { Envelope } from './envelope.ts';
import { emptyFrontier, TreeAppender } from './frontier.ts';
import { HashList } from './hash-list.ts';
import type { FaultList } from './log-report.ts';
import { leafHash } from './merkle-hash.ts';

/** Clocks differ a little, in milliseconds. */
export const clockSkew = 5 * 60_000;

/** What reading a log's entries leaves: 32 bytes and two numbers of each. */
export interface LogRead {
  /** The origin line that the log should have. */
  readonly origin: string | null;
  readonly leaves: HashList;
  /** The roots at the sizes asked for. */
  readonly roots: ReadonlyMap<number, Uint8Array>;
  /** By position: the number that the entry bears, and when it says it was recorded (NaN where unreadable). */
  readonly stamps: readonly { readonly seq: number | null; readonly recordedAt: number }[];
  /** Keys that entries name as the log's next ones. */
  readonly nextKeys: readonly { readonly seq: number; readonly key: string }[];
}

/** The roots of a list of leaf hashes at certain sizes, as far as it reaches. */
export function rootsOf(leaves: HashList, sizes: ReadonlySet<number>): Map<number, Uint8Array> {
  const roots = new Map<number, Uint8Array>();
  const tree = new TreeAppender(emptyFrontier);
  if (sizes.has(0)) roots.set(0, tree.root());
  for (let i = 0; i < leaves.length; i++) {
    tree.append(leaves.at(i));
    if (sizes.has(tree.size)) roots.set(tree.size, tree.root());
  }
  return roots;
}

/** Takes a log's entries in order and checks each by itself and against the one before. */
export class LogReader {
  readonly #leaves = new HashList();
  readonly #stamps: { seq: number | null; recordedAt: number }[] = [];
  readonly #nextKeys: { seq: number; key: string }[] = [];
  readonly #faults: FaultList;
  readonly #options: { readonly partial: boolean; readonly now: number };
  #origin: string | null;
  #latest = -Infinity;

  /** @param origin the origin line of the log's checkpoint; null: the first entry tells which log it is */
  constructor(origin: string | null, options: { readonly partial: boolean; readonly now: number }, faults: FaultList) {
    this.#origin = origin;
    this.#options = options;
    this.#faults = faults;
  }

  /** Takes the next entry; returns its value, or null where its bytes are not canonical. */
  add(entry: Uint8Array): { value: unknown; envelope: Envelope | null } | null {
    const place = this.#leaves.length;
    this.#leaves.push(leafHash(entry));
    const parsed = parseCanonical(entry);
    const read = parsed === null ? null : readEnvelope(parsed.value);
    if (parsed === null) {
      const what = `entry ${place} is not canonical JSON: its bytes were changed or damaged`;
      this.#faults.add({ kind: 'not-canonical', seq: place, what });
    } else if (read?.ok === false) {
      const what = `entry ${place} lacks what the log puts in every entry: ${read.why}`;
      this.#faults.add({ kind: 'envelope', seq: place, what });
    }
    const envelope = read?.ok === true ? read.value : null;
    if (envelope !== null) this.#checkStamps(envelope, place);
    this.#stamps.push({ seq: envelope?.seq ?? null, recordedAt: envelope?.recordedAt ?? NaN });
    return parsed === null ? null : { value: parsed.value, envelope };
  }

  #checkStamps({ operationId, seq, recordedAt, nextKey }: Envelope, place: number): void {
    const origin = originOf(operationId);
    this.#origin ??= origin;
    if (origin !== this.#origin) {
      this.#faults.add({ kind: 'other-log', seq, what: `entry ${seq} belongs to another log, ${origin}` });
    }
    const before = this.#stamps.at(-1)?.seq ?? -1;
    if (this.#options.partial ? seq <= before : seq !== place) {
      const what = `the entry at place ${place} has number ${seq} written in it`;
      this.#faults.add({ kind: 'sequence', seq: place, what });
    }
    const recorded = (): string => `entry ${seq} says it was recorded ${new Date(recordedAt).toISOString()}`;
    if (recordedAt < this.#latest) {
      this.#faults.add({ kind: 'time', seq, what: `${recorded()}, which is before an entry ahead of it` });
    }
    if (recordedAt > this.#options.now + clockSkew) {
      this.#faults.add({ kind: 'time', seq, what: `${recorded()}, which is yet to come` });
    }
    this.#latest = Math.max(this.#latest, recordedAt);
    if (nextKey !== null) this.#nextKeys.push({ seq, key: nextKey });
  }

  result(sizes: ReadonlySet<number>): LogRead {
    return {
      origin: this.#origin,
      leaves: this.#leaves,
      roots: rootsOf(this.#leaves, sizes),
      stamps: this.#stamps,
      nextKeys: this.#nextKeys,
    };
  }
}
