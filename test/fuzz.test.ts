import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { recordTypes, typeEntry } from '@furrowmark/domain';
import { base64, emptyFrontier, extend, leafHash, parseCanonical, rootOf } from '@furrowmark/log';
import { startTried, trial, type Outcome, type Tried } from './fuzz/trial.ts';
import { temporaryFolder } from './support/folder.ts';

// FUZZ_REQUESTS makes it longer; FUZZ_SEED makes the same requests again.
const count = Number(process.env['FUZZ_REQUESTS'] ?? 3_000);
// A reviewer's run tries the same every time; any other looks for something new.
const always = process.env['CI'] === 'true' ? 20261125 : undefined;
const seed = Number(process.env['FUZZ_SEED'] ?? always ?? Math.floor(Math.random() * 1e9));
const mib = 1024 * 1024;

let tried: Tried;
let outcome: Outcome;
let sizeBefore: number;

const get = (path: string): Promise<Response> =>
  fetch(`${tried.url}/api/v1/operations/${tried.operationId}${path}`, {
    headers: { authorization: `Bearer ${tried.tokens['manager']}` },
  });
const checkpoint = async (): Promise<string[]> => (await (await get('/log/checkpoint')).text()).split('\n');

async function entries(): Promise<Buffer[]> {
  const found: Buffer[] = [];
  for (let next: string | null = '0'; next !== null;) {
    const answer: Response = await get(`/log/entries?from=${next}`);
    found.push(
      ...(await answer.text())
        .split('\n')
        .slice(0, -1)
        .map((line) => Buffer.from(line)),
    );
    next = answer.headers.get('furrowmark-next');
  }
  return found;
}

beforeAll(
  async () => {
    process.stderr.write(`fuzz: FUZZ_SEED=${seed} FUZZ_REQUESTS=${count}\n`);
    tried = await startTried(temporaryFolder('fuzz'));
    const document: unknown = await (await fetch(`${tried.url}/api/openapi.json`)).json();
    sizeBefore = Number((await checkpoint())[1]);
    outcome = await trial(tried, document, count, seed);
    const told = [...outcome.statuses].sort().map(([status, times]) => `${status}: ${times}`);
    const held = outcome.memory.map(
      ({ rss, heapUsed, external, records }) =>
        `${Math.round(rss / mib)} MiB resident, ${Math.round(heapUsed / mib)} in use and ${Math.round(external / mib)} outside with ${records} records`,
    );
    process.stderr.write(
      `fuzz: ${outcome.sent} requests (${told.join(', ')}); ${held.join('; ')}; the slowest ${outcome.slowest.milliseconds} ms (${outcome.slowest.route})\n`,
    );
  },
  60_000 + count * 40,
);
afterAll(() => tried?.end());

describe('bad input at every address of the description', () => {
  it('is answered in time, as a problem, never as a fault of the service', () => {
    expect(outcome.faults.slice(0, 20)).toEqual([]);
  });

  it('reached every address, and was sometimes right', () => {
    expect([...outcome.routes].filter(([, times]) => times === 0)).toEqual([]);
    for (const status of ['200', '400', '401', '404', '422']) expect([...outcome.statuses.keys()]).toContain(status);
    expect(outcome.recorded.size).toBeGreaterThan(10);
  });

  it('left nothing in the log but what was acknowledged, as it was sent', async () => {
    const bytes = await entries();
    const log = bytes.map((line) => Object(parseCanonical(line)?.value));
    expect(log.map(({ seq }) => seq)).toEqual(log.map((_, i) => i));
    const added = log.slice(sizeBefore);
    const own = added.filter(({ id }) => !outcome.recorded.has(id));
    // The server's own (a link made, a signature, a key replaced), never more of them than requests that may make one.
    expect(own.filter(({ type }) => typeEntry(type)?.server !== true && type !== 'batch.reviewed')).toEqual([]);
    expect(own.length).toBeLessThanOrEqual(outcome.others);
    const ids = new Set(added.map(({ id }) => id));
    expect(ids.size).toBe(added.length);
    expect([...outcome.recorded.keys()].filter((id) => !ids.has(id))).toEqual([]);
    for (const entry of added) {
      if (!outcome.recorded.has(entry.id)) continue;
      expect(recordTypes).toContain(entry.type);
      // Personal values stand sealed in the log; everything else stands there as it was sent.
      if (entry.sealed !== undefined || JSON.stringify(entry.data).includes('sealed')) continue;
      const { operationId, seq, recordedAt, recordedBy, ...members } = entry;
      expect({ operationId, recordedBy: typeof recordedBy, recordedAt: typeof recordedAt, seq: typeof seq }).toEqual({
        ...{ operationId: tried.operationId, recordedBy: 'string', recordedAt: 'string', seq: 'number' },
      });
      expect(members).toEqual(JSON.parse(JSON.stringify(outcome.recorded.get(entry.id))));
    }
    const { frontier } = extend(
      emptyFrontier,
      bytes.map((line) => leafHash(line)),
    );
    expect((await checkpoint()).slice(1, 3)).toEqual([String(bytes.length), base64(rootOf(frontier))]);
  });

  it('tried every kind of bad input that there must be', () => {
    expect([...outcome.kinds].filter(([, times]) => times === 0)).toEqual([]);
  });

  // What is referred to grows with the log, of which each record is held folded, and with nothing else: a request that
  // left a hundred bytes behind would show in a longer trial.
  it('leaves nothing behind in the memory but what was recorded', () => {
    const [early, , late] = outcome.memory;
    if (early === undefined || late === undefined) throw new Error('the memory was not looked at');
    const grown = late.heapUsed + late.external - early.heapUsed - early.external;
    const mayGrow = 16 * mib + (late.records - early.records) * 32 * 1024;
    expect(grown).toBeLessThan(mayGrow);
  });

  it('leaves a service that works: an honest record is taken, and it ends well', async () => {
    const honest = { ...tried.examples[0], id: crypto.randomUUID() };
    const answer = await fetch(`${tried.url}/api/v1/operations/${tried.operationId}/check`, {
      method: 'POST',
      headers: { authorization: `Bearer ${tried.tokens['manager']}`, 'content-type': 'application/json' },
      body: JSON.stringify({ records: [honest] }),
    });
    expect(answer.status).toBe(200);
    expect(await tried.end()).toBe(0);
  }, 30_000);
});
