import { createPublicKey } from 'node:crypto';
import { describe, expect, it } from '@jest/globals';
import { verifyCheckpoint } from '@sigstore/verify/dist/tlog/checkpoint.js';
import { verifyMerkleInclusion } from '@sigstore/verify/dist/tlog/merkle.js';
import {
  canonicalBytes,
  emptyFrontier,
  extend,
  leafHash,
  nodesForInclusion,
  proofFrom,
  rootOf,
  signCheckpoint,
  signerFromSeed,
} from '@furrowmark/log';

/*
 * A second outside check of entries, inclusion proofs and signed checkpoints: the verifying code of a public transparency
 * log's client (@sigstore/verify, Apache-2.0), which shares nothing with ours, not even the signature's implementation.
 */
const origin = 'furrowmark/0197a000-0000-7000-8000-000000000001';
const signer = signerFromSeed(origin, new Uint8Array(32).fill(21));
const size = 37;
const entries = Array.from({ length: size }, (_, seq) => canonicalBytes({ seq, note: `entry ${seq} – dépôt` }));
const { nodes } = extend(emptyFrontier, entries.map(leafHash));
const table = new Map(nodes.map((node) => [`${node.level}/${node.index}`, node.hash]));
// RFC 8410: the fixed beginning of an Ed25519 key in X.509's form.
const spki = Buffer.concat([Buffer.from('302a300506032b6570032100', 'hex'), signer.key.publicKey]);
const authority = {
  baseURL: origin,
  logID: Buffer.from(signer.key.keyId, 'hex'),
  publicKey: createPublicKey({ key: spki, format: 'der', type: 'spki' }),
  validFor: { start: new Date(0), end: new Date('2100-01-01') },
};

/** An entry with its proof and checkpoint in the form that the client takes them. */
function proven(index: number, to: number, body: Uint8Array = entries[index] ?? new Uint8Array()) {
  const { frontier } = extend(emptyFrontier, entries.slice(0, to).map(leafHash));
  const envelope = signCheckpoint({ origin, size: to, root: rootOf(frontier) }, [signer]);
  const plan = nodesForInclusion(index, to);
  const hashes = proofFrom(
    plan,
    plan.nodes.map(({ level, index: place }) => table.get(`${level}/${place}`) ?? new Uint8Array()),
  ).map((hash) => Buffer.from(hash));
  const inclusionProof = {
    ...{ logIndex: String(index), treeSize: String(to), hashes, rootHash: Buffer.from(rootOf(frontier)) },
    checkpoint: { envelope },
  };
  return {
    ...{ logIndex: String(index), logId: { keyId: authority.logID }, kindVersion: { kind: 'entry', version: '1' } },
    ...{ integratedTime: '0', inclusionPromise: undefined, canonicalizedBody: Buffer.from(body), inclusionProof },
  };
}

describe('@sigstore/verify', () => {
  it('opens every checkpoint, and verifies every entry under every checkpoint that covers it', () => {
    let checked = 0;
    for (let to = 1; to <= size; to += 1) {
      for (let index = 0; index < to; index += 1) {
        const entry = proven(index, to);
        verifyMerkleInclusion(entry, verifyCheckpoint(entry, [authority]));
        checked += 1;
      }
    }
    expect(checked).toBe((size * (size + 1)) / 2);
  });

  it('refuses another entry, another place, another key', () => {
    const entry = proven(5, size);
    const checkpoint = verifyCheckpoint(entry, [authority]);
    const other = proven(5, size, entries[6]);
    expect(() => verifyMerkleInclusion(other, checkpoint)).toThrow(/does not match/);
    const moved = { ...entry, inclusionProof: { ...entry.inclusionProof, logIndex: '6' } };
    expect(() => verifyMerkleInclusion(moved, checkpoint)).toThrow(/does not match/);
    const stranger = signerFromSeed(origin, new Uint8Array(32).fill(22));
    const forged = signCheckpoint({ origin, size, root: entry.inclusionProof.rootHash }, [
      { key: signer.key, sign: stranger.sign },
    ]);
    const unsigned = { ...entry, inclusionProof: { ...entry.inclusionProof, checkpoint: { envelope: forged } } };
    expect(() => verifyCheckpoint(unsigned, [authority])).toThrow(/signature/);
  });
});
