import { createHash, randomUUID } from 'node:crypto';
import { readdirSync, utimesSync, writeFileSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { ReportMaker } from '@furrowmark/api';
import { infoOf } from './pdf/programs.ts';
import { requests, season } from './bench/records.ts';
import { testDatabase } from './support/database.ts';
import { TestService, type Answer, type TestOperation } from './support/service.ts';

const day = 86_400_000;
let now = Date.parse('2026-12-01T12:00:00Z');
let service: TestService;
let op: TestOperation;
let folder: string;
beforeAll(async () => {
  service = await TestService.start({ clock: { now: () => now } });
  op = await service.operation();
  folder = join((await testDatabase()).dataDir, 'reports');
  // A season that fills some hundreds of pages.
  for (const records of requests(season(900), 450)) {
    const { json } = await service.append(op.operationId, op.tokens.manager, records);
    expect(json.results.filter(({ status }: { status: string }) => status !== 'recorded')).toEqual([]);
  }
}, 120_000);
afterAll(() => service.close());

const jobs = (of: TestOperation = op): string => `/api/v1/operations/${of.operationId}/report-jobs`;
const year = { from: '2016-01-01', to: '2026-12-31' };
const packet = { kind: 'inspection-packet', parameters: year };
const ask = (body: object, token = op.tokens.manager): Promise<Answer> => service.call('POST', jobs(), token, body);
const look = async (jobId: string, token = op.tokens.manager): Promise<Answer['json']> =>
  (await service.get(`${jobs()}/${jobId}`, token)).json;
async function until(jobId: string, is: (job: { state: string; progress: number }) => boolean) {
  for (let i = 0; i < 600; i += 1) {
    const job = await look(jobId);
    if (is(job)) return job;
    await pause(50);
  }
  throw new Error(`the job did not come so far: ${JSON.stringify(await look(jobId))}`);
}
const ended = ({ state }: { state: string }): boolean => state !== 'waiting' && state !== 'running';
const fetched = async (href: string, token: string, headers: Record<string, string> = {}) => {
  const answer = await fetch(service.url + href, { headers: { authorization: `Bearer ${token}`, ...headers } });
  return { status: answer.status, headers: answer.headers, bytes: Buffer.from(await answer.arrayBuffer()) };
};
const filesOf = (operationId: string): string[] => {
  try {
    return readdirSync(join(folder, operationId));
  } catch {
    return [];
  }
};

describe('a report made in the background', () => {
  it('is promised at once, tells how far it is, and is fetched when it is made', async () => {
    const asked = await ask(packet);
    expect(asked.status).toBe(202);
    expect(asked.headers.get('location')).toBe(`${jobs()}/${asked.json.jobId}`);
    expect(asked.json).toMatchObject({ kind: 'inspection-packet', form: 'pdf', progress: 0 });
    const shares = new Set<number>();
    const done = await until(asked.json.jobId, (job) => {
      if (!ended(job)) shares.add(job.progress);
      return ended(job);
    });
    expect(done).toMatchObject({ state: 'done', progress: 1 });
    const between = [...shares].filter((share) => share > 0.1 && share < 1);
    expect(between.length).toBeGreaterThan(0);
    expect(between).toEqual(between.toSorted((a, b) => a - b));
    const { status, headers, bytes } = await fetched(done.result.href, op.tokens.manager);
    expect(status).toBe(200);
    expect(headers.get('content-type')).toBe('application/pdf');
    expect(bytes.length).toBe(done.result.byteLength);
    expect(createHash('sha256').update(bytes).digest('hex')).toBe(done.result.sha256);
    expect(Number(/^Pages: +(\d+)$/m.exec(infoOf(bytes))?.[1])).toBeGreaterThan(100);
  }, 60_000);

  it('a download that broke off goes on where it stopped (RFC 9110, range requests)', async () => {
    const done = await until((await ask({ kind: 'stock', form: 'csv' })).json.jobId, ended);
    const whole = await fetched(done.result.href, op.tokens.manager);
    const rest = await fetched(done.result.href, op.tokens.manager, { range: 'bytes=10-' });
    expect(rest.status).toBe(206);
    expect(Buffer.concat([whole.bytes.subarray(0, 10), rest.bytes])).toEqual(whole.bytes);
  }, 30_000);

  it.each(['csv', 'json', 'pdf'] as const)(
    'as %s is the same as the report asked for at once',
    async (form) => {
      const done = await until(
        (await ask({ kind: 'season-applications', form, parameters: year, language: 'en' })).json.jobId,
        ended,
      );
      const made = await fetched(done.result.href, op.tokens.manager);
      const path = `/api/v1/operations/${op.operationId}/reports/season-applications.${form}?from=2016-01-01&to=2026-12-31&language=en`;
      expect(made.bytes.equals((await fetched(path, op.tokens.manager)).bytes)).toBe(true);
    },
    30_000,
  );

  it('names whoever wrote a record that names nobody', async () => {
    const used = {
      ...{ id: randomUUID(), type: 'equipment.used', version: 1, occurredAt: '2026-07-01T08:00:00Z' },
      data: { equipmentId: randomUUID(), what: 'rinsed for the neighbour', prohibited: 'no' },
    };
    await service.append(op.operationId, op.tokens.recorder, [used]);
    const path = `/api/v1/operations/${op.operationId}/reports/equipment-use-log.csv?from=2026-07-01&to=2026-07-01`;
    const { text } = await service.get(path, op.tokens.manager);
    expect(text).toContain('rinsed for the neighbour');
    expect(text).toContain('Ruth');
  });

  it('is refused where no report can come of it, before it waits', async () => {
    const { status, json } = await ask({ kind: 'season-applications', parameters: { from: 'spring' } });
    expect([status, json.errors[0].pointer]).toEqual([422, '/parameters/from']);
    expect((await ask({ kind: 'weather' })).status).toBe(422);
    expect((await ask({ kind: 'stock', form: 'jsonld' })).json.errors[0].pointer).toBe('/form');
  });

  it('about a thing that is not there fails, and says so', async () => {
    const asked = await ask({ kind: 'batch-record', parameters: { batch: randomUUID() } });
    expect(await until(asked.json.jobId, ended)).toMatchObject({
      state: 'failed',
      detail: 'What it should be about is not known.',
    });
    expect((await fetched(`${jobs()}/${asked.json.jobId}/result`, op.tokens.manager)).status).toBe(409);
  }, 30_000);
});

describe('cancelling', () => {
  it('ends what is being made, and leaves no half a file', async () => {
    const { jobId } = (await ask(packet)).json;
    await until(jobId, ({ state, progress }) => state === 'running' && progress > 0.1);
    const cancelled = await service.call('DELETE', `${jobs()}/${jobId}`, op.tokens.manager);
    expect([cancelled.status, cancelled.json.state]).toEqual([200, 'cancelled']);
    for (let i = 0; i < 100 && filesOf(op.operationId).some((name) => name.startsWith(jobId)); i += 1) await pause(50);
    expect(filesOf(op.operationId).filter((name) => name.startsWith(jobId))).toEqual([]);
    await pause(700);
    expect(await look(jobId)).toMatchObject({ state: 'cancelled' });
    expect((await look(jobId)).result).toBeUndefined();
  }, 60_000);

  it('keeps what waits from ever being begun: a process makes one report of an operation at a time', async () => {
    const [first, second] = [(await ask(packet)).json, (await ask(packet)).json];
    await until(first.jobId, ({ progress }) => progress > 0.1);
    expect((await look(second.jobId)).state).toBe('waiting');
    for (const { jobId } of [second, first]) await service.call('DELETE', `${jobs()}/${jobId}`, op.tokens.manager);
    await pause(2500);
    expect(await look(second.jobId)).toMatchObject({ state: 'cancelled', startedAt: null });
  }, 60_000);

  it('nobody fills the queue: the sixth open one of a person is refused until one has ended', async () => {
    const open = [];
    for (let i = 0; i < 5; i += 1) open.push((await ask(packet)).json.jobId);
    const refused = await ask(packet);
    expect([refused.status, refused.headers.get('retry-after')]).toEqual([429, '30']);
    expect((await ask({ kind: 'stock' }, op.tokens.reviewer)).status).toBe(202); // another person’s
    for (const jobId of open) await service.call('DELETE', `${jobs()}/${jobId}`, op.tokens.manager);
    expect((await ask({ kind: 'stock' })).status).toBe(202);
  }, 60_000);
});

describe('who sees a job', () => {
  it('only who asked for it; nobody else in the operation, nobody of another, no reading link', async () => {
    const other = await service.operation();
    const done = await until((await ask({ kind: 'stock' })).json.jobId, ended);
    const link = await service.call('POST', `/api/v1/operations/${op.operationId}/access-links`, op.tokens.manager, {});
    const stranger = `/api/v1/operations/${other.operationId}/report-jobs/${done.jobId}`;
    for (const [path, token, status] of [
      [`${jobs()}/${done.jobId}`, op.tokens.manager, 200],
      [`${jobs()}/${done.jobId}`, op.tokens.reviewer, 404],
      [`${jobs()}/${done.jobId}`, other.tokens.manager, 404],
      [stranger, other.tokens.manager, 404],
      [`${jobs()}/${done.jobId}`, link.json.token, 403],
      [jobs(), link.json.token, 403],
    ] as const) {
      expect([path, (await service.get(path, token)).status]).toEqual([path, status]);
      if (path === jobs()) continue;
      expect((await service.get(`${path}/result`, token)).status).toBe(status);
      if (status !== 200) expect((await service.call('DELETE', path, token)).status).toBe(status);
    }
    expect((await service.call('POST', jobs(), link.json.token, packet)).status).toBe(403);
    expect((await service.get(jobs(other), other.tokens.manager)).json).toEqual({ jobs: [] });
    expect((await look(done.jobId)).state).toBe('done');
  }, 30_000);
});

describe('what was made', () => {
  it('is removed when its owner removes it', async () => {
    const done = await until((await ask({ kind: 'stock' })).json.jobId, ended);
    expect(filesOf(op.operationId).some((name) => name.startsWith(done.jobId))).toBe(true);
    expect((await service.call('DELETE', `${jobs()}/${done.jobId}`, op.tokens.manager)).status).toBe(200);
    expect(filesOf(op.operationId).some((name) => name.startsWith(done.jobId))).toBe(false);
    expect((await service.get(`${jobs()}/${done.jobId}`, op.tokens.manager)).status).toBe(404);
  }, 30_000);

  it('is removed after seven days, and not before', async () => {
    const done = await until((await ask({ kind: 'stock' })).json.jobId, ended);
    const maker = service.service.context.get(ReportMaker);
    const there = (): boolean => filesOf(op.operationId).some((name) => name.startsWith(done.jobId));
    now += 7 * day - 1000;
    await maker.sweep();
    expect([there(), (await look(done.jobId)).state]).toEqual([true, 'done']);
    now += 2000;
    await maker.sweep();
    expect([there(), (await service.get(`${jobs()}/${done.jobId}`, op.tokens.manager)).status]).toEqual([false, 404]);
  }, 30_000);

  it('made before a person was erased is not given out afterwards, and is removed', async () => {
    const farm = await service.operation();
    const { manager } = farm.tokens;
    const personId = randomUUID();
    const append = async (type: string, data: object): Promise<void> => {
      const entry = { id: randomUUID(), type, version: 1, occurredAt: new Date(now).toISOString(), data };
      expect((await service.append(farm.operationId, manager, [entry])).json.results[0].status).toBe('recorded');
    };
    await append('person.registered', { personId, personal: { name: 'Tomas Ferrant' } });
    // Five years: 7 CFR 205.103(b)(3).
    now += 5 * 366 * day;
    const made = async (): Promise<{ jobId: string; result: { href: string } }> => {
      const { jobId } = (await service.call('POST', jobs(farm), manager, { kind: 'training', form: 'json' })).json;
      for (;;) {
        const job = (await service.get(`${jobs(farm)}/${jobId}`, manager)).json;
        if (ended(job)) return job;
        await pause(50);
      }
    };
    const before = await made();
    expect((await fetched(before.result.href, manager)).status).toBe(200);
    await append('person.erased', { personId, reason: 'asked for it' });
    const after = await made();
    expect((await fetched(before.result.href, manager)).status).toBe(404);
    expect((await service.get(jobs(farm), manager)).json.jobs.map(({ jobId }: { jobId: string }) => jobId)).toEqual([
      after.jobId,
    ]);
    await service.service.context.get(ReportMaker).sweep();
    expect(filesOf(farm.operationId).map((name) => name.slice(0, 36))).toEqual([after.jobId]);
    expect((await fetched(after.result.href, manager)).status).toBe(200);
  }, 30_000);

  it('that no job knows any more is removed once it is a day old', async () => {
    const place = join(folder, op.operationId);
    mkdirSync(place, { recursive: true });
    const [old, young] = [`${randomUUID()}-1`, `${randomUUID()}-1`];
    for (const name of [old, young]) writeFileSync(join(place, name), 'half a report');
    utimesSync(join(place, old), (now - 2 * day) / 1000, (now - 2 * day) / 1000);
    utimesSync(join(place, young), now / 1000, now / 1000);
    await service.service.context.get(ReportMaker).sweep();
    expect(filesOf(op.operationId)).not.toContain(old);
    expect(filesOf(op.operationId)).toContain(young);
  });
});
