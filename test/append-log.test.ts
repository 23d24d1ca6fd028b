import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import {
  base64,
  emptyFrontier,
  extend,
  fromBase64,
  isCanonical,
  leafHash,
  openCheckpoint,
  parseEntryBundle,
  parseVerifierKey,
  rootOf,
  verifyConsistency,
  verifyInclusion,
} from '@furrowmark/log';
import { note, TestService, type TestOperation } from './support/service.ts';

let service: TestService;
let op: TestOperation;
const size = 300;
beforeAll(async () => {
  service = await TestService.start();
  op = await service.operation();
  for (const count of [1, 6, 92, 200]) {
    await service.append(
      op.operationId,
      op.tokens.recorder,
      Array.from({ length: count }, (_, i) => note(`n ${i}`)),
    );
  }
}, 60_000);
afterAll(() => service.close());

const log = (path: string) => service.get(`/api/v1/operations/${op.operationId}/log/${path}`, op.tokens.inspector);
const bytesOf = async (path: string): Promise<Uint8Array> => {
  const answer = await fetch(`${service.url}/api/v1/operations/${op.operationId}/log/${path}`, {
    headers: { authorization: `Bearer ${op.tokens.inspector}` },
  });
  return new Uint8Array(await answer.arrayBuffer());
};
const entries = async (): Promise<Uint8Array[]> => {
  const text = Buffer.from(await bytesOf('entries')).toString('utf8');
  return text
    .split('\n')
    .slice(0, -1)
    .map((line) => Buffer.from(line));
};
const hash = (text: string | undefined): Uint8Array => {
  const bytes = fromBase64(text ?? '');
  if (bytes === null) throw new Error(`not base64: ${text}`);
  return bytes;
};

describe('the log over HTTP', () => {
  it('the checkpoint is signed by the key that is handed out, and is the root of the entries', async () => {
    const key = parseVerifierKey((await log('key')).text);
    if (!key.ok) throw new Error(key.why);
    expect(key.value.name).toBe(`furrowmark/${op.operationId}`);
    const opened = openCheckpoint((await log('checkpoint')).text, [key.value]);
    if (!opened.ok) throw new Error(opened.why);
    const leaves = (await entries()).map(leafHash);
    expect(opened.value.checkpoint).toEqual({
      origin: `furrowmark/${op.operationId}`,
      size,
      root: rootOf(extend(emptyFrontier, leaves).frontier),
    });
  });

  it('every entry is canonical, and holds operation, seq, recordedAt and who recorded it', async () => {
    let before = '';
    for (const [seq, bytes] of (await entries()).entries()) {
      expect(isCanonical(bytes)).toBe(true);
      const entry = JSON.parse(Buffer.from(bytes).toString('utf8'));
      expect(entry).toMatchObject({ operationId: op.operationId, seq });
      expect(entry.recordedAt >= before).toBe(true);
      expect(Object.values(op.accounts)).toContain(entry.recordedBy);
      before = entry.recordedAt;
    }
  });

  it.each([
    [0, 1],
    [0, 300],
    [5, 119],
    [118, 119],
    [255, 256],
    [299, 300],
  ])('entry %i is proven in the log of size %i', async (seq, at) => {
    const { json } = await log(`proof/inclusion?seq=${seq}&size=${at}`);
    const all = await entries();
    const leaf = leafHash(all[seq] ?? new Uint8Array());
    expect(json.leafHash).toBe(base64(leaf));
    expect(json.root).toBe(base64(rootOf(extend(emptyFrontier, all.slice(0, at).map(leafHash)).frontier)));
    expect(verifyInclusion(leaf, seq, at, json.path.map(hash), hash(json.root))).toBe(true);
  });

  it.each([
    [1, 300],
    [50, 119],
    [128, 256],
    [299, 300],
    [300, 300],
  ])('the log of size %i is proven to begin the log of size %i', async (from, to) => {
    const { json } = await log(`proof/consistency?from=${from}&to=${to}`);
    const all = (await entries()).map(leafHash);
    const rootAt = (n: number) => rootOf(extend(emptyFrontier, all.slice(0, n)).frontier);
    expect(verifyConsistency(from, rootAt(from), to, rootAt(to), json.path.map(hash))).toBe(true);
  });

  it.each([
    'seq=300',
    'seq=0&size=301',
    'seq=5&size=5',
    'seq=-1',
    'seq=1.5',
    'seq=',
    '',
    'seq=1&seq=2',
    'seq=1e3',
    'seq=99999999999999999999',
  ])('a proof that cannot be given is refused: %s', async (query) => {
    const answer = await log(`proof/inclusion?${query}`);
    expect(answer.status).toBe(400);
    expect(answer.json.errors[0].parameter).toMatch(/^(seq|size)$/);
  });

  it('entries come from inclusive to exclusive', async () => {
    const all = await entries();
    expect(Buffer.from(await bytesOf('entries?from=2&to=4')).toString()).toBe(`${all[2]}\n${all[3]}\n`);
    expect((await log('entries?from=4&to=4')).text).toBe('');
    expect((await log('entries?from=300')).text).toBe('');
    expect((await log('entries?from=299&to=9999')).text).toBe(`${all[299]}\n`);
  });

  it('more entries than fit one answer: the answer names the next', async () => {
    const far = await service.operation();
    const thousand = Array.from({ length: 1000 }, (_, i) => note(String(i)));
    await service.append(far.operationId, far.tokens.recorder, thousand);
    const path = `/api/v1/operations/${far.operationId}/log/entries`;
    const first = await service.get(path, far.tokens.inspector);
    expect(first.text.split('\n')).toHaveLength(1001);
    const next = /<(.*)>; rel="next"/.exec(first.headers.get('link') ?? '')?.[1] ?? '';
    const second = await service.get(next, far.tokens.inspector);
    expect(JSON.parse(second.text).seq).toBe(1000);
    expect(second.headers.get('link')).toBeNull();
  });

  // C2SP tlog-tiles: 32-byte hashes side by side; a full tile has 256.
  it('tiles hold the leaf hashes and the roots of full tiles below', async () => {
    const all = (await entries()).map(leafHash);
    expect(Buffer.from(await bytesOf('tile/0/000'))).toEqual(Buffer.concat(all.slice(0, 256)));
    expect(Buffer.from(await bytesOf('tile/0/001.p/44'))).toEqual(Buffer.concat(all.slice(256)));
    expect(Buffer.from(await bytesOf('tile/1/000.p/1'))).toEqual(
      Buffer.from(rootOf(extend(emptyFrontier, all.slice(0, 256)).frontier)),
    );
    const bundle = parseEntryBundle(await bytesOf('tile/entries/001.p/44'));
    expect(bundle.ok && bundle.value.map((bytes) => Buffer.from(bytes))).toEqual((await entries()).slice(256));
  });

  it.each([
    'tile/0/001',
    'tile/0/001.p/45',
    'tile/1/001.p/1',
    'tile/0/0',
    'tile/64/000',
    'tile/x/000',
    'tile/0/..%2f000',
  ])('no such tile: %s', async (path) => {
    expect((await log(path)).status).toBe(404);
  });
});
