import { sha256 } from '#sha256';

/*
 * RFC 9162 section 2.1.1 (and RFC 6962 section 2.1), the Merkle Tree Hash over an ordered list of byte strings:
 *
 *   MTH({})        = SHA-256()
 *   MTH({d0})      = SHA-256(0x00 || d0)
 *   MTH(D[n])      = SHA-256(0x01 || MTH(D[0:k]) || MTH(D[k:n])),  k = the largest power of two below n
 *
 * The first byte keeps leaves and nodes apart: no inner node can be passed off as an entry.
 */

/** Bytes in a hash. */
export const hashLength = 32;

/** The root of a tree without leaves. */
export function emptyRoot(): Uint8Array {
  return sha256(new Uint8Array(0));
}

// One buffer, used again: nothing awaits between filling and hashing it.
let leafInput = new Uint8Array(4096);

/** SHA-256(0x00 || entry). */
export function leafHash(entry: Uint8Array): Uint8Array {
  const length = entry.length + 1;
  if (leafInput.length < length) leafInput = new Uint8Array(length * 2);
  leafInput[0] = 0x00;
  leafInput.set(entry, 1);
  return sha256(leafInput.subarray(0, length));
}

/** SHA-256(0x01 || left || right). */
export function nodeHash(left: Uint8Array, right: Uint8Array): Uint8Array {
  const input =
    left.length + right.length === 2 * hashLength ? nodeInput : new Uint8Array(1 + left.length + right.length);
  input[0] = 0x01;
  input.set(left, 1);
  input.set(right, 1 + left.length);
  return sha256(input);
}
const nodeInput = new Uint8Array(1 + 2 * hashLength);
