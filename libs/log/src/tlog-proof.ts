import { base64, fromBase64, textOf, utf8 } from './bytes.ts';
import { bad, good } from './checked.ts';
import type { Checked } from './checked.ts';
import { openCheckpoint } from './checkpoint.ts';
import type { OpenedCheckpoint } from './checkpoint.ts';
import type { VerifierKey } from './key.ts';
import { hashLength, leafHash } from './merkle-hash.ts';
import { verifyInclusion } from './proof-verify.ts';

/*
 * C2SP tlog-proof (https://c2sp.org/tlog-proof): one entry's proof with its checkpoint, to be kept apart from the log:
 *
 *   c2sp.org/tlog-proof@v1
 *   extra <base64>            optional; not authenticated
 *   index <decimal>
 *   <base64 hash>             one a line, from the leaf to the root
 *   (blank line)
 *   the signed checkpoint, verbatim
 */

const header = 'c2sp.org/tlog-proof@v1';

/** An entry's place in the log, the path to the root, and the signed checkpoint that has this root. */
export interface TlogProof {
  readonly index: number;
  readonly path: readonly Uint8Array[];
  /** The signed note, verbatim. */
  readonly checkpoint: string;
  /** Anything that the reader may need beside the proof. Nothing vouches for it. */
  readonly extra?: Uint8Array;
}

/** The text of a proof file (`.tlog-proof`). */
export function tlogProofText({ index, path, checkpoint, extra }: TlogProof): string {
  const lines = [header];
  if (extra !== undefined) lines.push(`extra ${base64(extra)}`);
  lines.push(`index ${index}`, ...path.map(base64), '');
  return `${lines.join('\n')}\n${checkpoint}`;
}

/** Reads a proof file; nothing is checked but its form. */
export function parseTlogProof(file: Uint8Array | string): Checked<TlogProof> {
  const text = typeof file === 'string' ? file : textOf(file);
  // The first blank line: those within the checkpoint come after it.
  const blank = text?.indexOf('\n\n') ?? -1;
  if (text === null || blank < 0) return bad('not a proof file');
  const [first, ...rest] = text.slice(0, blank).split('\n');
  if (first !== header) return bad(`a proof file begins with ${header}`);
  const extraText = rest[0]?.startsWith('extra ') ? rest.shift()?.slice('extra '.length) : undefined;
  const extra = extraText === undefined ? undefined : fromBase64(extraText);
  if (extra === null) return bad('the extra data of the proof are not proper base64');
  const index = /^index (0|[1-9][0-9]*)$/.exec(rest.shift() ?? '')?.[1];
  if (index === undefined || !Number.isSafeInteger(Number(index))) return bad('the proof does not name its index');
  const path: Uint8Array[] = [];
  for (const line of rest) {
    const hash = fromBase64(line);
    if (hash === null || hash.length !== hashLength) return bad('a hash of the proof is not the base64 of 32 bytes');
    path.push(hash);
  }
  if (path.length > 63) return bad('the proof has more hashes than a tree has levels');
  const proof = { index: Number(index), path, checkpoint: text.slice(blank + 2) };
  return good(extra === undefined ? proof : { ...proof, extra });
}

/** Whether the proof shows that these bytes are the log's entry at its index, under a checkpoint by a trusted key. */
export function verifyTlogProof(
  proof: TlogProof,
  entry: Uint8Array,
  keys: readonly VerifierKey[],
): Checked<OpenedCheckpoint> {
  const opened = openCheckpoint(utf8(proof.checkpoint), keys);
  if (!opened.ok) return opened;
  const { size, root } = opened.value.checkpoint;
  if (!verifyInclusion(leafHash(entry), proof.index, size, proof.path, root)) {
    return bad(`the entry is not entry ${proof.index} of the log with this checkpoint`);
  }
  return opened;
}
