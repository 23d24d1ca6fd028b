import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { afterEach, describe, expect, it } from '@jest/globals';
import { z } from 'zod';
import { base64, emptyFrontier, extend, leafHash, parseCanonical, rootOf } from '@furrowmark/log';
import { startChild, type ChildService } from './support/child.ts';
import { temporaryFolder } from './support/folder.ts';
import { note } from './support/service.ts';

let service: ChildService | undefined;
afterEach(async () => {
  await service?.end('SIGTERM');
});

/** What clients were told, and what they sent: the acknowledged records by id. */
interface Told {
  readonly acknowledged: Map<string, number>;
  readonly sent: Map<string, object>;
  readonly statuses: Map<number, number>;
}

const post = (url: string, token: string, path: string, body: unknown): Promise<Response> =>
  fetch(url + path, {
    method: 'POST',
    headers: { authorization: `Bearer ${token}`, 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });

async function operation(from: ChildService): Promise<string> {
  const made = await post(from.url, from.token, '/api/v1/operations', { name: 'Quillfen Growers', timeZone: 'UTC' });
  return z.object({ operationId: z.string() }).parse(await made.json()).operationId;
}

const appended = z.object({ results: z.array(z.object({ id: z.string(), status: z.string(), seq: z.number() })) });
const resultsOf = async (answer: Response) => appended.parse(await answer.json()).results;

/** Phones that send single records and batches of them, as fast as they are answered, until told to stop. */
async function phones(from: ChildService, operationId: string, told: Told, until: { stopped: boolean }): Promise<void> {
  const phone = async (size: number): Promise<void> => {
    while (!until.stopped) {
      const records = Array.from({ length: size }, () => note('from a phone'));
      for (const record of records) told.sent.set(record.id, record);
      try {
        const answer = await post(from.url, from.token, `/api/v1/operations/${operationId}/records`, { records });
        told.statuses.set(answer.status, (told.statuses.get(answer.status) ?? 0) + 1);
        if (answer.status !== 200) {
          expect(Number(answer.headers.get('retry-after'))).toBeGreaterThan(0);
          await answer.text();
          await pause(50);
          continue;
        }
        for (const result of await resultsOf(answer)) told.acknowledged.set(result.id, result.seq);
      } catch {
        await pause(20); // The connection broke: nothing was acknowledged.
      }
    }
  };
  await Promise.all([1, 1, 1, 5, 20, 100].map(phone));
}

async function entriesOf(from: ChildService, operationId: string): Promise<Buffer[]> {
  const entries: Buffer[] = [];
  for (let next: string | null = '0'; next !== null;) {
    const answer: Response = await fetch(`${from.url}/api/v1/operations/${operationId}/log/entries?from=${next}`, {
      headers: { authorization: `Bearer ${from.token}` },
    });
    expect(answer.status).toBe(200);
    const lines = Buffer.from(await answer.arrayBuffer())
      .toString('utf8')
      .split('\n')
      .slice(0, -1);
    entries.push(...lines.map((line) => Buffer.from(line)));
    next = answer.headers.get('furrowmark-next');
  }
  return entries;
}

/** No acknowledged record lost, none twice, seq without gaps, and the signed root is that of the entries. */
async function expectWhole(from: ChildService, operationId: string, told: Told): Promise<void> {
  const entries = await entriesOf(from, operationId);
  const parsed = entries.map((bytes) => Object(parseCanonical(bytes)?.value));
  expect(parsed.map((entry) => entry.seq)).toEqual(entries.map((_, i) => i));
  expect(new Set(parsed.map((entry) => entry.id)).size).toBe(entries.length);
  const bySeq = new Map(parsed.map((entry) => [entry.id, entry.seq]));
  const wrong = [...told.acknowledged].filter(([id, seq]) => bySeq.get(id) !== seq);
  expect(wrong).toEqual([]);
  const strangers = parsed.slice(1).filter((entry) => !told.sent.has(entry.id));
  expect(strangers).toEqual([]);
  const checkpoint = await fetch(`${from.url}/api/v1/operations/${operationId}/log/checkpoint`, {
    headers: { authorization: `Bearer ${from.token}` },
  });
  const root = base64(
    rootOf(
      extend(
        emptyFrontier,
        entries.map((bytes) => leafHash(bytes)),
      ).frontier,
    ),
  );
  expect((await checkpoint.text()).split('\n').slice(1, 3)).toEqual([String(entries.length), root]);
}

async function waitFor(condition: () => boolean): Promise<void> {
  for (let i = 0; i < 300 && !condition(); i += 1) await pause(100);
  expect(condition()).toBe(true);
}

const freshlyTold = (): Told => ({ acknowledged: new Map(), sent: new Map(), statuses: new Map() });

describe('kill -9 while phones deliver', () => {
  it('of the service: nothing acknowledged is lost, and what is sent again afterwards is recorded once', async () => {
    const folder = temporaryFolder('killed-service');
    service = await startChild(folder);
    const { token } = service;
    const operationId = await operation(service);
    const told = freshlyTold();
    const until = { stopped: false };
    const sending = phones(service, operationId, told, until);
    await pause(1500);
    await service.end('SIGKILL');
    until.stopped = true;
    await sending;
    expect(told.acknowledged.size).toBeGreaterThan(100);

    service = { ...(await startChild(folder)), token };
    await expectWhole(service, operationId, told);
    const all = [...told.sent.values()];
    for (let start = 0; start < all.length; start += 1000) {
      const records = all.slice(start, start + 1000);
      const answer = await post(service.url, token, `/api/v1/operations/${operationId}/records`, { records });
      for (const result of await resultsOf(answer)) {
        const before = told.acknowledged.get(result.id);
        if (before !== undefined) expect(result).toMatchObject({ status: 'duplicate', seq: before });
        told.acknowledged.set(result.id, result.seq);
      }
    }
    expect(told.acknowledged.size).toBe(told.sent.size);
    await expectWhole(service, operationId, told);
  }, 60_000);

  it('of PostgreSQL: the service asks its phones to wait, brings the database back, and nothing acknowledged is lost', async () => {
    const folder = temporaryFolder('killed-database');
    service = await startChild(folder);
    const operationId = await operation(service);
    const told = freshlyTold();
    const until = { stopped: false };
    const sending = phones(service, operationId, told, until);
    await pause(1000);
    const pid = Number(readFileSync(join(folder, 'pg', 'postmaster.pid'), 'utf8').split('\n')[0]);
    process.kill(pid, 'SIGKILL');
    await waitFor(() => told.statuses.has(503));
    const before = told.acknowledged.size;
    await waitFor(() => told.acknowledged.size > before + 100);
    until.stopped = true;
    await sending;
    expect(told.acknowledged.size).toBeGreaterThan(before);
    // Never another fault than "busy, send it again".
    expect([...told.statuses.keys()].sort()).toEqual([200, 503]);
    await expectWhole(service, operationId, told);
  }, 60_000);
});

describe('SIGTERM while phones deliver', () => {
  it('answers everything it accepted, and ends well', async () => {
    const folder = temporaryFolder('stopped-service');
    service = await startChild(folder);
    const { token } = service;
    const operationId = await operation(service);
    const told = freshlyTold();
    const until = { stopped: false };
    const sending = phones(service, operationId, told, until);
    await pause(500);
    const code = await service.end('SIGTERM');
    until.stopped = true;
    await sending;
    expect(code).toBe(0);
    service = { ...(await startChild(folder)), token };
    const recorded = (await entriesOf(service, operationId)).length - 1;
    expect(recorded).toBe(told.acknowledged.size);
  }, 60_000);
});
