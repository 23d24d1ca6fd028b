import { createHash } from 'node:crypto';
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { afterEach, describe, expect, it } from '@jest/globals';
import { z } from 'zod';
import { requests, season } from './bench/records.ts';
import { infoOf } from './pdf/programs.ts';
import { startChild, type ChildService } from './support/child.ts';
import { temporaryFolder } from './support/folder.ts';

let service: ChildService | undefined;
afterEach(async () => {
  await service?.end('SIGKILL');
});

const job = z.looseObject({
  jobId: z.string(),
  state: z.string(),
  progress: z.number(),
  result: z.object({ href: z.string(), byteLength: z.number(), sha256: z.string() }).optional(),
});

async function ask(from: ChildService, token: string, method: string, path: string, body?: object): Promise<Response> {
  return fetch(`${from.url}/api/v1${path}`, {
    method,
    headers: { authorization: `Bearer ${token}`, 'content-type': 'application/json' },
    ...(body === undefined ? {} : { body: JSON.stringify(body) }),
  });
}

/** A season in which a packet takes some seconds, and a packet asked for and begun. */
async function begun(from: ChildService) {
  const { token } = from;
  const made = await ask(from, token, 'POST', '/operations', { name: 'Quillfen Growers', timeZone: 'UTC' });
  const { operationId } = z.object({ operationId: z.string() }).parse(await made.json());
  for (const records of requests(season(2000), 500)) {
    expect((await ask(from, token, 'POST', `/operations/${operationId}/records`, { records })).status).toBe(200);
  }
  const path = `/operations/${operationId}/report-jobs`;
  const packet = { kind: 'inspection-packet', parameters: { from: '2016-01-01', to: '2026-12-31' } };
  const { jobId } = job.parse(await (await ask(from, token, 'POST', path, packet)).json());
  const look = async (at: ChildService) => job.parse(await (await ask(at, token, 'GET', `${path}/${jobId}`)).json());
  await until(
    () => look(from),
    ({ progress }) => progress > 0.1,
  );
  return { operationId, jobId, token, look };
}

async function until<T>(look: () => Promise<T>, is: (seen: T) => boolean): Promise<T> {
  for (let i = 0; i < 1200; i += 1) {
    const seen = await look();
    if (is(seen)) return seen;
    await pause(50);
  }
  throw new Error(`it did not come so far: ${JSON.stringify(await look())}`);
}

async function expectWhole(
  from: ChildService,
  dataDir: string,
  { operationId, jobId, token, look }: Awaited<ReturnType<typeof begun>>,
) {
  const done = await until(
    () => look(from),
    ({ state }) => state !== 'waiting' && state !== 'running',
  );
  expect(done.state).toBe('done');
  const answer = await fetch(from.url + (done.result?.href ?? ''), { headers: { authorization: `Bearer ${token}` } });
  const bytes = Buffer.from(await answer.arrayBuffer());
  expect(createHash('sha256').update(bytes).digest('hex')).toBe(done.result?.sha256);
  expect(infoOf(bytes)).toMatch(/^Pages: +\d{3,4}$/m);
  // Once: what the attempt before left is gone, and the result stays as it is.
  await pause(1500);
  expect((await look(from)).result).toEqual(done.result);
  expect(readdirSync(join(dataDir, 'reports', operationId)).filter((name) => name.startsWith(jobId))).toHaveLength(1);
}

describe('a service that ends while it makes a report', () => {
  it('by kill -9: the one started after it makes the report, once', async () => {
    const folder = temporaryFolder('killed-while-reporting');
    service = await startChild(folder);
    const made = await begun(service);
    await service.end('SIGKILL');
    service = await startChild(folder);
    await expectWhole(service, folder, made);
  }, 180_000);

  it('by being stopped: the report goes back into the queue, and is made after the start without waiting for a silence', async () => {
    const folder = temporaryFolder('stopped-while-reporting');
    service = await startChild(folder);
    const made = await begun(service);
    expect(await service.end('SIGTERM')).toBe(0);
    service = await startChild(folder);
    await expectWhole(service, folder, made);
  }, 180_000);
});
