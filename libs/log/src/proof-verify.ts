import { equalBytes } from './bytes.ts';
import { hashLength, nodeHash } from './merkle-hash.ts';

/** An index or a size: the RFC's are 64-bit, which a number holds exactly only up to 2^53 - 1. */
export type Count = number | bigint;

const isHash = (bytes: Uint8Array): boolean => bytes.length === hashLength;
const isOdd = (n: bigint): boolean => (n & 1n) === 1n;

/** The count as a bigint, or null where it is none: negative, a fraction, beyond 2^53 as a number or 2^64 at all. */
function counted(n: Count): bigint | null {
  if (typeof n === 'number' && !Number.isSafeInteger(n)) return null;
  const count = BigInt(n);
  return count >= 0n && count < 1n << 64n ? count : null;
}

/**
 * RFC 9162 section 2.1.3.2: whether the path shows that `leafHash` is the leaf at `index` of the tree of `size` leaves
 * with this root. Anything malformed is simply not shown; nothing throws.
 */
export function verifyInclusion(
  leafHash: Uint8Array,
  index: Count,
  size: Count,
  path: readonly Uint8Array[],
  root: Uint8Array,
): boolean {
  const [first, leaves] = [counted(index), counted(size)];
  if (first === null || leaves === null || first >= leaves) return false;
  if (![leafHash, root, ...path].every(isHash)) return false;

  let [fn, sn, r] = [first, leaves - 1n, leafHash];
  for (const p of path) {
    if (sn === 0n) return false;
    if (isOdd(fn) || fn === sn) {
      r = nodeHash(p, r);
      while (!isOdd(fn) && fn !== 0n) [fn, sn] = [fn >> 1n, sn >> 1n];
    } else {
      r = nodeHash(r, p);
    }
    [fn, sn] = [fn >> 1n, sn >> 1n];
  }
  return sn === 0n && equalBytes(r, root);
}

/**
 * RFC 9162 section 2.1.4.2: whether the path shows that the tree (size2, root2) begins with the tree (size1, root1).
 * Equal sizes need equal roots and an empty path. Size 0 shows nothing and is refused.
 */
export function verifyConsistency(
  size1: Count,
  root1: Uint8Array,
  size2: Count,
  root2: Uint8Array,
  path: readonly Uint8Array[],
): boolean {
  const [old, now] = [counted(size1), counted(size2)];
  if (old === null || now === null || old === 0n || old > now) return false;
  if (![root1, root2, ...path].every(isHash)) return false;
  if (old === now) return path.length === 0 && equalBytes(root1, root2);
  if (path.length === 0) return false;

  // A power of two is one complete subtree of the new tree: the path leaves it out, being root1 itself.
  const [seed, ...rest] = (old & (old - 1n)) === 0n ? [root1, ...path] : path;
  if (seed === undefined) return false;
  let [fn, sn] = [old - 1n, now - 1n];
  while (isOdd(fn)) [fn, sn] = [fn >> 1n, sn >> 1n];
  let [fr, sr] = [seed, seed];
  for (const c of rest) {
    if (sn === 0n) return false;
    if (isOdd(fn) || fn === sn) {
      fr = nodeHash(c, fr);
      sr = nodeHash(c, sr);
      while (!isOdd(fn) && fn !== 0n) [fn, sn] = [fn >> 1n, sn >> 1n];
    } else {
      sr = nodeHash(sr, c);
    }
    [fn, sn] = [fn >> 1n, sn >> 1n];
  }
  return sn === 0n && equalBytes(fr, root1) && equalBytes(sr, root2);
}
