import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import vectors from '../../../test/checks/log/merkle-rfc6962.json' with { type: 'json' };
import { concatBytes, hex, utf8 } from './bytes.ts';
import { emptyFrontier, extend, nodesForRoot, rootOf } from './frontier.ts';
import type { NodeId } from './frontier.ts';
import { emptyRoot, leafHash, nodeHash } from './merkle-hash.ts';
import { nodesForConsistency, nodesForInclusion, proofFrom } from './proof-plan.ts';
import type { ProofPlan } from './proof-plan.ts';
import { verifyConsistency, verifyInclusion } from './proof-verify.ts';

// Figures: RFC 6962 / RFC 9162 test trees as published by transparency-dev/merkle; see test/checks/log/README.md.
const bytes = (text: string): Uint8Array => Uint8Array.from(Buffer.from(text, 'hex'));

/** MTH(D[n]) as RFC 9162 section 2.1.1 writes it: the definition itself, for comparison. */
function naiveRoot(leaves: readonly Uint8Array[]): Uint8Array {
  const [only, second] = leaves;
  if (only === undefined) return emptyRoot();
  if (second === undefined) return only;
  let k = 1;
  while (k * 2 < leaves.length) k *= 2;
  return nodeHash(naiveRoot(leaves.slice(0, k)), naiveRoot(leaves.slice(k)));
}

/** A store of complete subtrees, as a database table would be. */
function store(leaves: readonly Uint8Array[]) {
  const { frontier, nodes } = extend(emptyFrontier, leaves);
  const table = new Map(nodes.map(({ level, index, hash }) => [`${level}/${index}`, hash]));
  const read = (ids: readonly NodeId[]): Uint8Array[] =>
    ids.map(({ level, index }) => table.get(`${level}/${index}`) ?? Buffer.from(`no node ${level}/${index}`));
  const prove = (plan: ProofPlan): Uint8Array[] => proofFrom(plan, read(plan.nodes));
  return { root: rootOf(frontier), frontier, nodes, read, prove };
}

const leaves = (n: number): Uint8Array[] => Array.from({ length: n }, (_, i) => leafHash(utf8(`entry ${i}`)));
const flipped = (hash: Uint8Array, bit: number): Uint8Array =>
  hash.map((byte, i) => (i === bit >> 3 ? byte ^ (1 << (bit & 7)) : byte));

describe('the published RFC 6962 tree', () => {
  const eight = vectors.leaves.map((leaf) => leafHash(bytes(leaf.inputHex)));

  it('has the published leaf hashes', () => {
    expect(eight.map(hex)).toEqual(vectors.leaves.map((leaf) => leaf.leafHash));
  });

  it('has the published single hashes: of no leaf, of an empty leaf, of a node of any two byte strings', () => {
    const [ofNothing, ofEmpty, ofText, ofNode] = vectors.singleHashVectors;
    expect(hex(emptyRoot())).toBe(ofNothing?.expect);
    expect(hex(leafHash(bytes('')))).toBe(ofEmpty?.expect);
    expect(hex(leafHash(bytes(ofText?.inputHex ?? '')))).toBe(ofText?.expect);
    expect(hex(nodeHash(bytes(ofNode?.leftHex ?? ''), bytes(ofNode?.rightHex ?? '')))).toBe(ofNode?.expect);
  });

  it('has the published inner nodes', () => {
    const { read } = store(eight);
    const level = (l: number) => read(Array.from({ length: 8 >> l }, (_, index) => ({ level: l, index }))).map(hex);
    expect(level(1)).toEqual(vectors.innerNodes.level1);
    expect(level(2)).toEqual(vectors.innerNodes.level2);
    expect(level(3)).toEqual(vectors.innerNodes.level3);
  });

  it.each(vectors.roots)('has the published root at size $treeSize', ({ treeSize, root }) => {
    expect(hex(store(eight.slice(0, treeSize)).root)).toBe(root);
  });

  it.each(vectors.generated_inclusion)('gives the inclusion proof of leaf $leafIndex at size $treeSize', (v) => {
    const proof = store(eight).prove(nodesForInclusion(v.leafIndex, v.treeSize));
    expect(proof.map(hex)).toEqual(v.proof);
    expect(verifyInclusion(bytes(v.leafHash), v.leafIndex, v.treeSize, proof, bytes(v.root))).toBe(true);
  });

  it.each(vectors.generated_consistency)('gives the consistency proof from $size1 to $size2', (v) => {
    const proof = store(eight).prove(nodesForConsistency(v.size1, v.size2));
    expect(proof.map(hex)).toEqual(v.proof);
    expect(verifyConsistency(v.size1, bytes(v.root1), v.size2, bytes(v.root2), proof)).toBe(true);
  });
});

describe('the published probes, sizes up to 2^64 - 1 among them', () => {
  it.each(vectors.published_inclusion_probes)('inclusion: $desc ($source): $expect', (v) => {
    const shown = verifyInclusion(
      bytes(v.leafHash),
      BigInt(v.leafIndex),
      BigInt(v.treeSize),
      v.proof.map(bytes),
      bytes(v.root),
    );
    expect(shown).toBe(v.expect === 'accept');
  });

  it.each(vectors.published_consistency_probes)('consistency: $desc ($source): $expect', (v) => {
    // One probe is published as accepted with roots of 12 bytes; hashes that are not 32 bytes are refused here.
    const expected = 'strictExpect' in v ? v.strictExpect : v.expect;
    const shown = verifyConsistency(
      BigInt(v.size1),
      bytes(v.root1),
      BigInt(v.size2),
      bytes(v.root2),
      v.proof.map(bytes),
    );
    expect(shown).toBe(expected === 'accept');
  });
});

describe('a growing tree', () => {
  it('has the root that the definition gives, however the leaves arrive', () => {
    fc.assert(
      fc.property(fc.array(fc.nat(40), { maxLength: 8 }), (batches) => {
        const all = leaves(batches.reduce((a, b) => a + b, 0));
        let frontier = emptyFrontier;
        let at = 0;
        for (const count of batches) ({ frontier } = extend(frontier, all.slice(at, (at += count))));
        expect(frontier.size).toBe(all.length);
        expect(hex(rootOf(frontier))).toBe(hex(naiveRoot(all)));
      }),
    );
  });

  it('can be taken up again from stored nodes alone', () => {
    fc.assert(
      fc.property(fc.nat(200), fc.nat(50), (before, more) => {
        const all = leaves(before + more);
        const { read } = store(all.slice(0, before));
        const resumed = extend({ size: before, edge: read(nodesForRoot(before)) }, all.slice(before));
        expect(hex(rootOf(resumed.frontier))).toBe(hex(naiveRoot(all)));
      }),
    );
  });

  it('reports each complete subtree exactly once, with the hash that the definition gives', () => {
    const all = leaves(37);
    const first = extend(emptyFrontier, all.slice(0, 13));
    const nodes = [...first.nodes, ...extend(first.frontier, all.slice(13)).nodes];
    // 37 leaves hold 37 + 18 + 9 + 4 + 2 + 1 complete subtrees.
    expect(nodes).toHaveLength(71);
    expect(new Set(nodes.map((node) => `${node.level}/${node.index}`)).size).toBe(71);
    for (const { level, index, hash } of nodes) {
      expect(hex(hash)).toBe(hex(naiveRoot(all.slice(index * 2 ** level, (index + 1) * 2 ** level))));
    }
  });

  it('refuses a right edge that does not fit the size', () => {
    expect(() => extend({ size: 3, edge: leaves(1) }, leaves(1))).toThrow(RangeError);
  });
});

describe('proofs', () => {
  const indexAndSize = fc.integer({ min: 1, max: 300 }).chain((size) => fc.tuple(fc.nat(size - 1), fc.constant(size)));

  it('every inclusion proof shows its leaf, and no other leaf, index or size', () => {
    fc.assert(
      fc.property(indexAndSize, fc.nat(300), fc.nat(300), ([index, size], otherIndex, otherSize) => {
        const all = leaves(size);
        const { root, prove } = store(all);
        const path = prove(nodesForInclusion(index, size));
        const leaf = all[index] ?? emptyRoot();
        expect(verifyInclusion(leaf, index, size, path, root)).toBe(true);
        expect(verifyInclusion(leafHash(utf8('another')), index, size, path, root)).toBe(false);
        if (otherIndex !== index) expect(verifyInclusion(leaf, otherIndex, size, path, root)).toBe(false);
        // A path alone may fit neighbouring sizes (RFC 9162); the size comes from the signed checkpoint with its root.
        if (path.length > 0 && otherSize <= index) {
          expect(verifyInclusion(leaf, index, otherSize, path, root)).toBe(false);
        }
      }),
    );
  });

  it('no inner node passes as an entry: its hash is not the leaf hash of what it was made of', () => {
    const { root, read, prove } = store(leaves(8));
    const [left = root, right = root, inner = root] = read([
      { level: 0, index: 0 },
      { level: 0, index: 1 },
      { level: 1, index: 0 },
    ]);
    const path = prove(nodesForInclusion(0, 8)).slice(1);
    // The path above the inner node does lead to the root, in a tree of half the size.
    expect(verifyInclusion(inner, 0, 4, path, root)).toBe(true);
    // But the size is signed, and a verifier takes no leaf hash on trust: it hashes the entry's bytes as a leaf.
    expect(verifyInclusion(inner, 0, 8, path, root)).toBe(false);
    expect(verifyInclusion(leafHash(concatBytes(left, right)), 0, 4, path, root)).toBe(false);
  });

  it('every consistency proof shows that the old tree begins the new one', () => {
    fc.assert(
      fc.property(indexAndSize, ([index, to]) => {
        const from = index + 1;
        const all = leaves(to);
        const { root, prove } = store(all);
        const path = prove(nodesForConsistency(from, to));
        const old = naiveRoot(all.slice(0, from));
        expect(verifyConsistency(from, old, to, root, path)).toBe(true);
        const rewritten = naiveRoot([leafHash(utf8('rewritten')), ...all.slice(1, from)]);
        expect(verifyConsistency(from, rewritten, to, root, path)).toBe(false);
      }),
    );
  });

  it('fail at every single flipped bit', () => {
    const all = leaves(11);
    const { root, prove } = store(all);
    const [leaf, old] = [all[6] ?? root, naiveRoot(all.slice(0, 7))];
    const [inclusion, consistency] = [prove(nodesForInclusion(6, 11)), prove(nodesForConsistency(7, 11))];
    for (let bit = 0; bit < 256; bit++) {
      expect(verifyInclusion(flipped(leaf, bit), 6, 11, inclusion, root)).toBe(false);
      expect(verifyInclusion(leaf, 6, 11, inclusion, flipped(root, bit))).toBe(false);
      expect(verifyConsistency(7, flipped(old, bit), 11, root, consistency)).toBe(false);
      expect(verifyConsistency(7, old, 11, flipped(root, bit), consistency)).toBe(false);
      for (let i = 0; i < inclusion.length; i++) {
        const path = inclusion.map((hash, j) => (i === j ? flipped(hash, bit) : hash));
        expect(verifyInclusion(leaf, 6, 11, path, root)).toBe(false);
      }
      for (let i = 0; i < consistency.length; i++) {
        const path = consistency.map((hash, j) => (i === j ? flipped(hash, bit) : hash));
        expect(verifyConsistency(7, old, 11, root, path)).toBe(false);
      }
    }
  });

  it('need O(log n) stored nodes, at sizes beyond 2^32 too', () => {
    const size = 2 ** 45 - 1;
    expect(nodesForRoot(size)).toHaveLength(45);
    expect(nodesForInclusion(2 ** 44 + 12345, size).nodes.length).toBeLessThanOrEqual(90);
    expect(nodesForConsistency(2 ** 44 + 12345, size).nodes.length).toBeLessThanOrEqual(90);
    // The subtrees over 2^53 - 1 leaves: one of each level from 52 down to 0.
    expect(nodesForRoot(Number.MAX_SAFE_INTEGER).map((node) => node.level)).toEqual([...Array(53).keys()].reverse());
  });

  it('are refused outside the tree, and with hashes that do not fit the plan', () => {
    expect(() => nodesForInclusion(5, 5)).toThrow(RangeError);
    expect(() => nodesForInclusion(-1, 5)).toThrow(RangeError);
    expect(() => nodesForInclusion(1.5, 5)).toThrow(RangeError);
    expect(() => nodesForConsistency(0, 5)).toThrow(RangeError);
    expect(() => nodesForConsistency(6, 5)).toThrow(RangeError);
    expect(() => proofFrom(nodesForInclusion(0, 8), leaves(2))).toThrow(RangeError);
    expect(() => proofFrom(nodesForInclusion(0, 2), [new Uint8Array(31)])).toThrow(RangeError);
  });
});
