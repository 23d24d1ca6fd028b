import type { Seen } from './evidence.ts';

/** One thing that is wrong, where, in plain words. */
export interface Fault {
  readonly kind:
    | 'not-canonical' // the bytes are not the canonical text of their own value
    | 'envelope' // the log's own facts are missing from an entry
    | 'sequence' // an entry's number is not its place
    | 'other-log' // an entry names another log
    | 'time' // recorded before its predecessor, after now, or against a dated checkpoint
    | 'altered'
    | 'missing'
    | 'added'
    | 'moved' // these four: against leaf hashes that lead to a signed root, so exact
    | 'root' // the entries do not have the root of a checkpoint
    | 'shorter' // fewer entries than a checkpoint covers
    | 'uncovered' // more entries than the log's checkpoint covers
    | 'fork' // two checkpoints of one size with different roots
    | 'signature' // the log's checkpoint bears no signature that counts
    | 'proof' // an entry is not the one that a proof file shows
    | 'leaf-hashes'; // the stored leaf hashes are not those of the entries
  /** The entry, or the first of several; null where no entry is named. */
  readonly seq: number | null;
  /** The entry after the last, where the fault lies somewhere in a range. */
  readonly before?: number;
  readonly what: string;
}

/** How one piece of evidence fared. */
export interface EvidenceResult {
  readonly label: string;
  readonly outside: boolean;
  readonly size: number;
  readonly by: 'trusted' | 'own' | 'word' | 'nobody';
  readonly result: 'agrees' | 'differs' | 'beyond' | 'unusable';
  readonly why?: string;
  readonly seen?: Seen;
}

/**
 * `altered`          something is wrong: see the faults
 * `self-consistent`  all fits together, but nothing from outside shows that it was not made anew: whoever holds the
 *                    signing key can rewrite a log and sign it again
 * `genuine`          the first `genuineUpTo` entries are those that an outside checkpoint has seen
 */
export type Verdict = 'altered' | 'self-consistent' | 'genuine';

export interface LogReport {
  readonly verdict: Verdict;
  readonly origin: string | null;
  /** Entries read. */
  readonly entries: number;
  /** Entries that the log has by its own checkpoint, or those read where there is none. */
  readonly size: number;
  /** Of how many entries an outside checkpoint agrees; 0 where none does. */
  readonly genuineUpTo: number;
  /** When that checkpoint was seen; null where nobody said. */
  readonly witnessedAt: Seen | null;
  readonly faults: readonly Fault[];
  /** Faults beyond those listed, by kind. */
  readonly further: ReadonlyMap<Fault['kind'], number>;
  readonly evidence: readonly EvidenceResult[];
  /** Keys that entries of the log name as the next ones, and whether a trusted checkpoint covers that entry. */
  readonly successions: readonly { readonly seq: number; readonly key: string; readonly trusted: boolean }[];
}

/** Collects faults, at most `most` of a kind: one missing entry makes every number after it wrong. */
export class FaultList {
  readonly faults: Fault[] = [];
  readonly further = new Map<Fault['kind'], number>();
  readonly #counts = new Map<Fault['kind'], number>();
  readonly #most: number;

  constructor(most = 20) {
    this.#most = most;
  }

  add(fault: Fault): void {
    const count = (this.#counts.get(fault.kind) ?? 0) + 1;
    this.#counts.set(fault.kind, count);
    if (count <= this.#most) this.faults.push(fault);
    else this.further.set(fault.kind, count - this.#most);
  }
}
