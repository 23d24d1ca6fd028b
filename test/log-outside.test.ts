import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from '@jest/globals';
import {
  base64,
  canonicalBytes,
  checkpointText,
  emptyFrontier,
  extend,
  leafHash,
  nodesForConsistency,
  nodesForInclusion,
  proofFrom,
  rootOf,
  signCheckpoint,
  signerFromSeed,
  verifierKeyText,
} from '@furrowmark/log';
import type { ProofPlan } from '@furrowmark/log';

/*
 * The outside check of trees, proofs and signed checkpoints: golang.org/x/mod/sumdb, the code behind the Go checksum
 * database, reads ours and makes its own. Debian: golang-go, golang-golang-x-mod-dev.
 */
const debianSources = '/usr/share/gocode';
const origin = 'furrowmark/0197a000-0000-7000-8000-000000000001';
const signer = signerFromSeed(origin, new Uint8Array(32).fill(21));
const size = 70;
const entries = Array.from({ length: size }, (_, seq) => canonicalBytes({ seq, note: `entry ${seq} – dépôt` }));
const { nodes } = extend(emptyFrontier, entries.map(leafHash));
const table = new Map(nodes.map((node) => [`${node.level}/${node.index}`, node.hash]));
const prove = (plan: ProofPlan): string[] =>
  proofFrom(
    plan,
    plan.nodes.map(({ level, index }) => table.get(`${level}/${index}`) ?? new Uint8Array(0)),
  ).map(base64);

const pairs = Array.from({ length: size }, (_, i) => i + 1).flatMap((to) =>
  Array.from({ length: to }, (_, index) => ({ index, to })),
);
const inclusion = pairs.map(({ index, to }) => ({ Size: to, Index: index, Path: prove(nodesForInclusion(index, to)) }));
const consistency = pairs.map(({ index, to }) => ({
  From: index + 1,
  To: to,
  Path: prove(nodesForConsistency(index + 1, to)),
}));
const checkpoints = entries.map((_, i) => {
  const { frontier } = extend(emptyFrontier, entries.slice(0, i + 1).map(leafHash));
  return { origin, size: i + 1, root: rootOf(frontier) };
});

interface Answer {
  readonly Roots: string[];
  readonly Inclusion: string[];
  readonly InclusionPaths: (string[] | null)[];
  readonly Consistency: string[];
  readonly ConsistencyPaths: (string[] | null)[];
  readonly Checkpoints: string[];
}
let answer: Answer;

beforeAll(() => {
  if (!existsSync(debianSources)) {
    throw new Error('this check needs Go and golang.org/x/mod: apt-get install golang-go golang-golang-x-mod-dev');
  }
  const cache = mkdtempSync(join(tmpdir(), 'go-'));
  const signed = checkpoints.map((each) => signCheckpoint(each, [signer]));
  const question = {
    Entries: entries.map(base64),
    VerifierKey: verifierKeyText(signer.key),
    Checkpoints: [...signed, signed[0]?.replace('\n1\n', '\n2\n')],
    Inclusion: inclusion,
    Consistency: consistency,
  };
  try {
    const out = execFileSync('go', ['run', new URL('log-outside/main.go', import.meta.url).pathname], {
      input: JSON.stringify(question),
      env: {
        PATH: process.env['PATH'],
        GO111MODULE: 'off',
        GOPATH: debianSources,
        GOCACHE: cache,
        HOME: cache,
        GOFLAGS: '',
      },
      maxBuffer: 1 << 26,
      encoding: 'utf8',
    });
    answer = JSON.parse(out);
  } finally {
    rmSync(cache, { recursive: true, force: true });
  }
}, 180_000);

describe('golang.org/x/mod/sumdb', () => {
  it('computes the same root at every size', () => {
    expect(answer.Roots).toEqual(checkpoints.map(({ root }) => base64(root)));
  });

  it('makes the same inclusion proof for every entry at every size, and verifies ours', () => {
    expect(answer.InclusionPaths.map((path) => path ?? [])).toEqual(inclusion.map(({ Path }) => Path));
    expect(answer.Inclusion).toHaveLength((size * (size + 1)) / 2);
    expect(new Set(answer.Inclusion)).toEqual(new Set(['verified']));
  });

  it('makes the same consistency proof between any two sizes, and verifies ours', () => {
    expect(answer.ConsistencyPaths.map((path) => path ?? [])).toEqual(consistency.map(({ Path }) => Path));
    expect(new Set(answer.Consistency)).toEqual(new Set(['verified']));
  });

  it('opens every signed checkpoint with the verifier key line, and refuses a changed one', () => {
    expect(answer.Checkpoints.slice(0, size)).toEqual(checkpoints.map(checkpointText));
    expect(answer.Checkpoints[size]).toMatch(/invalid signature/);
  });
});
