import { equalBytes } from './bytes.ts';
import { good } from './checked.ts';
import type { Checked } from './checked.ts';
import { parseCheckpointText } from './checkpoint.ts';
import { parseVerifierKey } from './key.ts';
import type { VerifierKey } from './key.ts';
import { openNote, parseNote } from './note.ts';
import type { VerifiedSignature } from './note.ts';

/** Something that says what the root of a log was at a size. */
export interface Evidence {
  /** How a report is to name it: a file, "the log's checkpoint". */
  readonly label: string;
  /** Whether it came to the reader by another way than the log itself: kept since, printed, mailed, cosigned. */
  readonly outside: boolean;
  /** A signed checkpoint, or a bare size and root as printed on a report. */
  readonly statement: string | Uint8Array | { readonly size: number; readonly root: Uint8Array };
  /** When the reader had it; a day is a range. */
  readonly seen?: Seen;
  /** From a proof file: the path of one entry to this root. */
  readonly proof?: { readonly index: number; readonly path: readonly Uint8Array[] };
}

/** When evidence was seen, in milliseconds since 1970, and how the reader put it ("2026-06-03"). */
export interface Seen {
  readonly earliest: number;
  readonly latest: number;
  readonly words?: string;
}

/** Evidence as read, nothing checked but its form. `origin` and `note` are null for a bare size and root. */
export interface ReadEvidence extends Evidence {
  readonly origin: string | null;
  readonly size: number;
  readonly root: Uint8Array;
  readonly note: string | Uint8Array | null;
}

/**
 * Evidence with who stands behind it:
 * `trusted`  a key that the reader brought, or one that it handed over to
 * `own`      only a key that the log itself presents, which proves nothing about who signed
 * `word`     no signature counts, but the reader vouches for it as an outside memory
 */
export interface JudgedEvidence extends ReadEvidence {
  readonly by: 'trusted' | 'own' | 'word';
  /** Whether the log's own key signed it (a log's key bears the name of its origin). */
  readonly logSigned: boolean;
}

export function readEvidence(evidence: Evidence): Checked<ReadEvidence> {
  const { statement } = evidence;
  if (typeof statement !== 'string' && !(statement instanceof Uint8Array)) {
    return good({ ...evidence, ...statement, origin: null, note: null });
  }
  const note = parseNote(statement);
  if (!note.ok) return note;
  const checkpoint = parseCheckpointText(note.value.text);
  return checkpoint.ok ? good({ ...evidence, ...checkpoint.value, note: statement }) : checkpoint;
}

/** The keys with which evidence is judged. */
export interface Keys {
  readonly trusted: readonly VerifierKey[];
  readonly own: readonly VerifierKey[];
}

/** Who stands behind the evidence, or why it does not count. */
export function judgeEvidence(evidence: ReadEvidence, origin: string, { trusted, own }: Keys): Checked<JudgedEvidence> {
  if (evidence.note === null) return good({ ...evidence, by: 'word', logSigned: false });
  const byTrusted = openNote(evidence.note, trusted);
  if (byTrusted.ok) return good(signedBy(evidence, 'trusted', byTrusted.value.verified, origin));
  // Who brings the log's key does not want to hear what other keys say.
  if (trusted.some((key) => key.name === origin)) return byTrusted;
  const byOwn = openNote(evidence.note, own);
  if (byOwn.ok) return good(signedBy(evidence, 'own', byOwn.value.verified, origin));
  return evidence.outside ? good({ ...evidence, by: 'word', logSigned: false }) : byOwn;
}

function signedBy(
  evidence: ReadEvidence,
  by: 'trusted' | 'own',
  verified: readonly VerifiedSignature[],
  origin: string,
): JudgedEvidence {
  const witnesses = by === 'own' ? [] : verified.filter(({ key }) => key.name !== origin);
  const times = witnesses.flatMap(({ time }) => (time === undefined ? [] : [time * 1000]));
  // A cosigned time outranks what the reader remembers; of several, the first sight counts.
  const seen = times.length > 0 ? { earliest: Math.min(...times), latest: Math.min(...times) } : evidence.seen;
  return {
    ...evidence,
    by,
    logSigned: verified.some(({ key }) => key.name === origin),
    outside: evidence.outside || witnesses.length > 0,
    ...(seen === undefined ? {} : { seen }),
  };
}

/**
 * The trusted keys and those they hand over to: an entry that names the next key counts where a checkpoint signed by
 * a key trusted so far covers it. Otherwise whoever can write an entry could name a key of their own.
 */
export function withSuccessors(
  trusted: readonly VerifierKey[],
  nextKeys: readonly { readonly seq: number; readonly key: string }[],
  evidence: readonly ReadEvidence[],
  roots: ReadonlyMap<number, Uint8Array>,
  origin: string,
): VerifierKey[] {
  const keys = [...trusted];
  // In the log's order: a key can only hand over to a later one.
  for (const { seq, key } of nextKeys) {
    const next = parseVerifierKey(key);
    if (!next.ok || next.value.name !== origin) continue;
    const covered = evidence.some((each) => {
      const root = roots.get(each.size);
      if (each.size <= seq || root === undefined || !equalBytes(root, each.root)) return false;
      const judged = judgeEvidence(each, origin, { trusted: keys, own: [] });
      return judged.ok && judged.value.by === 'trusted' && judged.value.logSigned;
    });
    if (covered) keys.push(next.value);
  }
  return keys;
}
