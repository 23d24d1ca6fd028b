import { base64, fromBase64 } from './bytes.ts';
import { bad, good } from './checked.ts';
import type { Checked } from './checked.ts';
import { hashLength } from './merkle-hash.ts';
import type { Signer, VerifierKey } from './key.ts';
import { openNote, signNote } from './note.ts';
import type { OpenedNote } from './note.ts';

/*
 * A C2SP checkpoint (https://c2sp.org/tlog-checkpoint), the text of a signed note:
 *
 *   origin         names the log; never empty
 *   size           decimal, no leading zero
 *   base64(root)   the Merkle tree hash over the first `size` entries
 */

/** A log's state: `size` entries whose Merkle root is `root` (32 bytes). */
export interface Checkpoint {
  readonly origin: string;
  readonly size: number;
  readonly root: Uint8Array;
}

/** A checkpoint at least one of whose signatures verified, and its note. */
export interface OpenedCheckpoint {
  readonly checkpoint: Checkpoint;
  readonly note: OpenedNote;
}

/** The three lines of a checkpoint. */
export function checkpointText({ origin, size, root }: Checkpoint): string {
  return `${origin}\n${size}\n${base64(root)}\n`;
}

/** Reads a checkpoint's lines (not its signatures). Further lines are allowed by the format, and ignored. */
export function parseCheckpointText(text: string): Checked<Checkpoint> {
  const lines = text.split('\n');
  if (lines.pop() !== '') return bad('the checkpoint does not end in a line feed');
  const [origin, sizeText, rootText] = lines;
  if (origin === undefined || sizeText === undefined || rootText === undefined || lines.includes('')) {
    return bad('the checkpoint does not have its three lines');
  }
  if (!/^(0|[1-9][0-9]*)$/.test(sizeText)) return bad('the size of the checkpoint is not a decimal number');
  const size = Number(sizeText);
  if (!Number.isSafeInteger(size)) return bad('the size of the checkpoint is beyond 2^53 - 1');
  const root = fromBase64(rootText);
  if (root === null || root.length !== hashLength)
    return bad('the root of the checkpoint is not the base64 of 32 bytes');
  return good({ origin, size, root });
}

/** The signed checkpoint. Sign committed states only, and never one that does not extend every earlier one. */
export function signCheckpoint(checkpoint: Checkpoint, signers: readonly Signer[]): string {
  const text = checkpointText(checkpoint);
  const back = parseCheckpointText(text);
  if (!back.ok) throw new RangeError(back.why);
  return signNote(text, signers);
}

/** Checks a signed checkpoint with the keys that the reader trusts. See {@link openNote}. */
export function openCheckpoint(note: Uint8Array | string, keys: readonly VerifierKey[]): Checked<OpenedCheckpoint> {
  const opened = openNote(note, keys);
  if (!opened.ok) return opened;
  const checkpoint = parseCheckpointText(opened.value.text);
  return checkpoint.ok ? good({ checkpoint: checkpoint.value, note: opened.value }) : checkpoint;
}
