import { hashLength } from './merkle-hash.ts';
import { joined, subtreesOver } from './frontier.ts';
import type { NodeId } from './frontier.ts';

/**
 * Which complete subtrees a proof is made of. Read the hashes of `nodes` in that order (one query), give them to
 * {@link proofFrom}. A proof hash over the ragged right edge is joined from several nodes: `runs` counts the nodes of
 * each proof hash. At most about 2·log2(size) nodes.
 */
export interface ProofPlan {
  readonly nodes: readonly NodeId[];
  readonly runs: readonly number[];
}

/** A range of leaves, from inclusive, to exclusive, that is one subtree of the tree. */
type Range = readonly [from: number, to: number];

/** Where RFC 9162 splits n leaves: the largest power of two below n (n > 1). */
function split(n: number): number {
  let k = 1;
  while (k * 2 < n) k *= 2;
  return k;
}

function plan(ranges: readonly Range[]): ProofPlan {
  const runs = ranges.map(([from, to]) => subtreesOver(from, to));
  return { nodes: runs.flat(), runs: runs.map((run) => run.length) };
}

/**
 * PATH(index, D[size]) of RFC 9162 section 2.1.3.1: what shows that a leaf is in the tree.
 * Throws RangeError unless 0 <= index < size.
 */
export function nodesForInclusion(index: number, size: number): ProofPlan {
  requireInteger(index, 0, size - 1, 'index');
  const path: Range[] = [];
  for (let [from, to] = [0, size]; to - from > 1;) {
    const middle = from + split(to - from);
    if (index < middle) {
      path.unshift([middle, to]);
      to = middle;
    } else {
      path.unshift([from, middle]);
      from = middle;
    }
  }
  return plan(path);
}

/**
 * PROOF(from, D[to]) of RFC 9162 section 2.1.4.1: what shows that the tree of size `to` begins with the tree of size
 * `from`. Empty where they are equal. Throws RangeError unless 0 < from <= to: an empty tree is the beginning of
 * every tree, and nothing is proven by it.
 */
export function nodesForConsistency(from: number, to: number): ProofPlan {
  requireInteger(to, 1, Number.MAX_SAFE_INTEGER, 'to');
  requireInteger(from, 1, to, 'from');
  const path: Range[] = [];
  let [start, end] = [0, to];
  while (from !== end) {
    const middle = start + split(end - start);
    if (from <= middle) {
      path.unshift([middle, end]);
      end = middle;
    } else {
      path.unshift([start, middle]);
      start = middle;
    }
  }
  // SUBPROOF(m, D[m], true) adds nothing: the verifier holds that subtree, it is the whole old tree.
  if (start !== 0) path.unshift([start, end]);
  return plan(path);
}

/** The proof, from the hashes of the plan's nodes in the plan's order. Throws RangeError where they do not fit it. */
export function proofFrom(plan: ProofPlan, hashes: readonly Uint8Array[]): Uint8Array[] {
  if (hashes.length !== plan.nodes.length) {
    throw new RangeError(`the proof needs ${plan.nodes.length} hashes, ${hashes.length} were given`);
  }
  if (hashes.some((hash) => hash.length !== hashLength)) throw new RangeError('a hash has 32 bytes');
  let at = 0;
  return plan.runs.map((length) => joined(hashes.slice(at, (at += length))));
}

function requireInteger(value: number, least: number, most: number, name: string): void {
  if (!Number.isSafeInteger(value) || value < least || value > most) {
    throw new RangeError(`${name} must be a whole number from ${least} to ${most}, not ${value}`);
  }
}
