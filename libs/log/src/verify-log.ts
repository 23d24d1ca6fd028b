import {
  checkPart,
  compare,
  dateFaults,
  forkFaults,
  locateFaults,
  proofFaults,
  rangeFaults,
  signedLeaves,
} from './compare-log.ts';
import { originOf } from './envelope.ts';
import type { Envelope } from './envelope.ts';
import { judgeEvidence, readEvidence, withSuccessors } from './evidence.ts';
import type { Evidence, JudgedEvidence, ReadEvidence } from './evidence.ts';
import { HashList } from './hash-list.ts';
import { parseVerifierKey, verifierKeyText } from './key.ts';
import type { VerifierKey } from './key.ts';
import { FaultList } from './log-report.ts';
import type { EvidenceResult, LogReport } from './log-report.ts';
import { LogReader, rootsOf } from './read-log.ts';
import type { LogRead } from './read-log.ts';

/** What a log is checked with. */
export interface VerifyOptions {
  /** Verifier keys that the reader brings from outside: the log's, witnesses'. */
  readonly keys: readonly VerifierKey[];
  /** Keys that the log itself presents. They prove nothing; they only show that a checkpoint is whole. */
  readonly ownKeys: readonly VerifierKey[];
  /** The log's own checkpoint and earlier ones (`outside: false`), and what the reader kept (`outside: true`). */
  readonly evidence: readonly Evidence[];
  /**
   * The leaf hashes as stored beside the log, 32 bytes each. Never trusted; but once found to lead to a signed root,
   * they say exactly which entry is wrong, and let a part of a log be checked.
   */
  readonly leafHashes?: Uint8Array;
  /** Whether the entries are said to be a part of the log only. */
  readonly partial?: boolean;
  /** The reader's clock, milliseconds since 1970. */
  readonly now: number;
}

/** Checks a whole log. See {@link LogVerifier}. */
export async function verifyLog(
  entries: Iterable<Uint8Array> | AsyncIterable<Uint8Array>,
  options: VerifyOptions,
): Promise<LogReport> {
  const verifier = new LogVerifier(options);
  for await (const entry of entries) verifier.add(entry);
  return verifier.finish();
}

/**
 * Checks a log: `add` each entry in order, then `finish`. Everything is computed from the entries' bytes; what is
 * stored beside them serves only to say where a difference lies.
 */
export class LogVerifier {
  readonly #options: VerifyOptions;
  readonly #faults = new FaultList();
  readonly #evidence: ReadEvidence[] = [];
  readonly #unusable: EvidenceResult[] = [];
  readonly #stored: HashList | null;
  readonly #reader: LogReader;

  constructor(options: VerifyOptions) {
    this.#options = options;
    for (const evidence of options.evidence) {
      const read = readEvidence(evidence);
      if (read.ok) this.#evidence.push(read.value);
      else this.#doesNotCount({ ...evidence, size: 0 }, read.why);
    }
    const presented = this.#evidence.find(({ outside, origin }) => !outside && origin !== null);
    const { partial = false, now, leafHashes } = options;
    this.#reader = new LogReader(presented?.origin ?? null, { partial, now }, this.#faults);
    this.#stored = leafHashes === undefined || leafHashes.length % 32 !== 0 ? null : new HashList(leafHashes);
    if (leafHashes !== undefined && this.#stored === null) {
      const what = 'the leaf hashes beside the log are damaged: they are not a multiple of 32 bytes';
      this.#faults.add({ kind: 'leaf-hashes', seq: null, what });
    }
  }

  /** Takes the next entry; returns its value, or null where its bytes are not canonical. */
  add(entry: Uint8Array): { value: unknown; envelope: Envelope | null } | null {
    return this.#reader.add(entry);
  }

  finish(): LogReport {
    const { partial = false } = this.#options;
    const faults = this.#faults;
    const sizes = new Set(this.#evidence.map(({ size }) => size));
    const read = this.#reader.result(sizes);
    const stored = this.#stored ?? new HashList();
    // The common case, in which all is well, needs no second tree.
    const storedRoots = stored.equals(read.leaves) ? read.roots : rootsOf(stored, sizes);
    // A part of a log has no root of its own: its leaf hashes stand for it, and each entry is held against them.
    const [leaves, roots] = partial ? [stored, storedRoots] : [read.leaves, read.roots];

    const origin = read.origin ?? '';
    this.#checkKeys(origin);
    const trusted = withSuccessors(this.#options.keys, read.nextKeys, this.#evidence, roots, origin);
    const judged = this.#judge(read, origin, trusted);
    const compared = judged.map((evidence) => ({ evidence, comparison: compare(evidence, roots, leaves.length) }));
    const agreeing = compared.filter(({ comparison }) => comparison === 'agrees').map(({ evidence }) => evidence);

    const own = this.#evidence.filter(({ outside }) => !outside).map(({ size }) => size);
    const size = own.length === 0 ? leaves.length : Math.max(...own);
    const fits = agreeing.length === judged.length && leaves.length <= size;
    this.#locate(read, signedLeaves(stored, storedRoots, judged), fits);
    rangeFaults(compared, leaves.length, faults);
    forkFaults(judged, faults);
    proofFaults(leaves, judged, faults);
    for (const evidence of agreeing.filter(({ outside }) => outside)) dateFaults(read, evidence, faults);

    if (leaves.length > size) {
      const what = `the log's checkpoint covers ${size} entries, but ${leaves.length} are here`;
      faults.add({ kind: 'uncovered', seq: size, before: leaves.length, what });
    }

    const witness = agreeing.filter((each) => each.outside && each.size > 0).sort((a, b) => b.size - a.size)[0];
    const intact = witness === undefined ? 'self-consistent' : 'genuine';
    const trustedLines = new Set(trusted.map(verifierKeyText));
    return {
      verdict: faults.faults.length > 0 ? 'altered' : intact,
      origin: read.origin,
      entries: read.leaves.length,
      size,
      genuineUpTo: witness?.size ?? 0,
      witnessedAt: witness?.seen ?? null,
      faults: faults.faults,
      further: faults.further,
      evidence: [...compared.map(resultOf), ...this.#unusable],
      successions: read.nextKeys.map(({ seq, key }) => ({ seq, key, trusted: trustedLines.has(key) })),
    };
  }

  /** Log keys that the reader brought must be this log's: else it is another log that stands in its place. */
  #checkKeys(origin: string): void {
    const names = this.#options.keys.map(({ name }) => name).filter((name) => name.startsWith(originOf('')));
    if (names.length === 0 || names.includes(origin)) return;
    const what = `the log is ${origin}, but the keys that you brought are for ${names.join(', ')}`;
    this.#faults.add({ kind: 'other-log', seq: null, what });
  }

  #judge(read: LogRead, origin: string, trusted: readonly VerifierKey[]): JudgedEvidence[] {
    const named = read.nextKeys.map(({ key }) => parseVerifierKey(key)).flatMap((key) => (key.ok ? [key.value] : []));
    const keys = { trusted, own: [...this.#options.ownKeys, ...named] };
    return this.#evidence.flatMap((evidence) => {
      if (evidence.origin !== null && evidence.origin !== origin) {
        const what = `${evidence.label} is a checkpoint of another log, ${evidence.origin}: this is not the log that it has seen`;
        this.#faults.add({ kind: 'other-log', seq: null, what });
        return [];
      }
      const found = judgeEvidence(evidence, origin, keys);
      if (found.ok) return [found.value];
      this.#doesNotCount(evidence, found.why);
      return [];
    });
  }

  #locate(read: LogRead, signed: ReturnType<typeof signedLeaves>, fits: boolean): void {
    const faults = this.#faults;
    if (this.#options.partial === true) {
      if (signed !== null) return checkPart(read, signed, faults);
      const what = 'a part of a log can only be checked with leaf hashes that lead to the root of a checkpoint';
      return faults.add({ kind: 'leaf-hashes', seq: null, what });
    }
    if (signed !== null && !fits) locateFaults(read, signed, faults);
    if (fits && this.#stored !== null && !read.leaves.equals(this.#stored)) {
      const what = 'the leaf hashes stored beside the log are not those of its entries; the entries themselves agree';
      faults.add({ kind: 'leaf-hashes', seq: null, what });
    }
  }

  /** Evidence that cannot be used. Of the log's own it is a fault; of the reader's own it is only said. */
  #doesNotCount({ label, outside, size }: { label: string; outside: boolean; size: number }, why: string): void {
    this.#unusable.push({ label, outside, size, by: 'nobody', result: 'unusable', why });
    if (!outside) this.#faults.add({ kind: 'signature', seq: null, what: `${label} does not count: ${why}` });
  }
}

function resultOf({
  evidence,
  comparison,
}: {
  readonly evidence: JudgedEvidence;
  readonly comparison: EvidenceResult['result'];
}): EvidenceResult {
  const { label, outside, size, by, seen } = evidence;
  return { label, outside, size, by, result: comparison, ...(seen === undefined ? {} : { seen }) };
}
