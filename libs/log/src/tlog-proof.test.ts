import { describe, expect, it } from '@jest/globals';
import { utf8 } from './bytes.ts';
import { signCheckpoint } from './checkpoint.ts';
import { emptyFrontier, extend, rootOf } from './frontier.ts';
import { signerFromSeed } from './key.ts';
import { leafHash } from './merkle-hash.ts';
import { nodesForInclusion, proofFrom } from './proof-plan.ts';
import { parseTlogProof, tlogProofText, verifyTlogProof } from './tlog-proof.ts';
import type { TlogProof } from './tlog-proof.ts';

const signer = signerFromSeed('log.example', new Uint8Array(32).fill(5));
const entries = Array.from({ length: 11 }, (_, i) => utf8(`{"seq":${i}}`));
const { frontier, nodes } = extend(emptyFrontier, entries.map(leafHash));
const checkpoint = signCheckpoint({ origin: 'log.example', size: 11, root: rootOf(frontier) }, [signer]);

function proofOf(index: number): TlogProof {
  const plan = nodesForInclusion(index, 11);
  const hashes = plan.nodes.map(
    ({ level, index: at }) => nodes.find((n) => n.level === level && n.index === at)?.hash ?? new Uint8Array(0),
  );
  return { index, path: proofFrom(plan, hashes), checkpoint };
}

describe('proof files (C2SP tlog-proof)', () => {
  it.each(entries.map((entry, index) => ({ entry, index })))(
    'entry $index round-trips and verifies',
    ({ entry, index }) => {
      const proof = proofOf(index);
      const read = parseTlogProof(tlogProofText(proof));
      expect(read).toEqual({ ok: true, value: proof });
      expect(verifyTlogProof(proof, entry, [signer.key])).toMatchObject({
        ok: true,
        value: { checkpoint: { size: 11 } },
      });
      expect(verifyTlogProof(proof, utf8('{"seq":99}'), [signer.key]).ok).toBe(false);
      expect(verifyTlogProof({ ...proof, index: (index + 1) % 11 }, entry, [signer.key]).ok).toBe(false);
      expect(verifyTlogProof(proof, entry, []).ok).toBe(false);
    },
  );

  it('has the lines that the specification names, extra data among them', () => {
    const text = tlogProofText({ ...proofOf(3), extra: utf8('{"seq":3}') });
    const [first, extra, index, hash] = text.split('\n');
    expect([first, extra, index]).toEqual(['c2sp.org/tlog-proof@v1', 'extra eyJzZXEiOjN9', 'index 3']);
    expect(hash).toMatch(/^[A-Za-z0-9+/]{43}=$/);
    expect(text.endsWith(`\n\n${checkpoint}`)).toBe(true);
    expect(parseTlogProof(text)).toMatchObject({ ok: true, value: { extra: utf8('{"seq":3}') } });
  });

  it('fails at every single flipped bit', () => {
    const file = utf8(tlogProofText(proofOf(6)));
    for (let bit = 0; bit < file.length * 8; bit++) {
      const read = parseTlogProof(file.map((byte, i) => (i === bit >> 3 ? byte ^ (1 << (bit & 7)) : byte)));
      expect(read.ok && verifyTlogProof(read.value, utf8('{"seq":6}'), [signer.key]).ok).toBe(false);
    }
  });

  it.each([
    ['no blank line', 'c2sp.org/tlog-proof@v1\nindex 0\n'],
    ['another header', 'c2sp.org/tlog-proof@v2\nindex 0\n\nx'],
    ['no index', 'c2sp.org/tlog-proof@v1\n\nx'],
    ['an index with a leading zero', 'c2sp.org/tlog-proof@v1\nindex 01\n\nx'],
    ['a short hash', 'c2sp.org/tlog-proof@v1\nindex 0\nAAAA\n\nx'],
    ['extra data after the index', 'c2sp.org/tlog-proof@v1\nindex 0\nextra AAAA\n\nx'],
  ])('is refused with %s', (_what, text) => {
    expect(parseTlogProof(text).ok).toBe(false);
  });
});
