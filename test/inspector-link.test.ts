import { createHash, randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { TestService, type Answer, type TestOperation } from './support/service.ts';

// The operation's zone is America/New_York: its days begin at 04:00Z in summer, at 05:00Z in winter.
const hour = 3_600_000;
const day = 24 * hour;
let now = Date.parse('2026-06-10T12:00:00Z');
let service: TestService;
let op: TestOperation;
beforeAll(async () => {
  service = await TestService.start({ clock: { now: () => now } });
  op = await service.operation();
  await season();
}, 60_000);
afterAll(() => service.close());

const base = (): string => `/api/v1/operations/${op.operationId}`;
const ids = {
  vessel: randomUUID(),
  material: randomUUID(),
  oldBatch: randomUUID(),
  newBatch: randomUUID(),
  oldLot: randomUUID(),
  newLot: randomUUID(),
  source: randomUUID(),
};
const oldPaper = Buffer.from('result of 2025\n');
const newPaper = Buffer.from('result of 2026\n');
const digest = (bytes: Buffer): string => createHash('sha256').update(bytes).digest('hex');

const record = (type: string, occurredAt: string, data: object) => ({
  ...{ id: randomUUID(), type, version: 1, occurredAt, data },
});
const batch = (batchId: string, code: string, on: string) => [
  record('batch.opened', `${on}T06:00:00-05:00`, { batchId, code, kind: 'aeratedTea', vesselId: ids.vessel }),
  record('batch.filled', `${on}T06:10:00-05:00`, {
    ...{ batchId, sourceId: ids.source, volume: { value: 250, unit: '[gal_us]' } },
  }),
];
const lot = (lotId: string, code: string, on: string) =>
  record('lot.received', `${on}T08:00:00-05:00`, {
    ...{ lotId, code, materialId: ids.material, supplierLot: code, quantity: { value: 40, unit: '[lb_av]' } },
  });
const paper = (bytes: Buffer, on: string) =>
  record('document.attached', `${on}T09:00:00-05:00`, {
    ...{ documentId: randomUUID(), title: 'water test', mediaType: 'text/plain' },
    ...{ byteLength: bytes.length, sha256: digest(bytes), about: [ids.source] },
  });

/** A batch, a lot and a paper before the inspection of 15 January 2026, and the same after it. */
async function season(): Promise<void> {
  const records = [
    record('source.registered', '2024-01-01T00:00:00Z', {
      ...{ sourceId: ids.source, code: 'well', kind: 'well', disinfectant: 'none' },
    }),
    record('vessel.registered', '2024-01-01T00:00:00Z', {
      ...{ vesselId: ids.vessel, code: 'tote 2', previousContents: 'none' },
      totalVolume: { value: 275, unit: '[gal_us]' },
      workingVolume: { value: 250, unit: '[gal_us]' },
    }),
    record('material.registered', '2024-01-01T00:00:00Z', {
      ...{ materialId: ids.material, code: 'FH', name: 'fish hydrolysate', kind: 'nutrient' },
      ...{ animalOrigin: 'yes', microbialFood: 'yes' },
    }),
    ...batch(ids.oldBatch, 'T-01', '2025-05-02'),
    lot(ids.oldLot, 'FH-1', '2025-05-01'),
    paper(oldPaper, '2025-05-03'),
    record('inspection.held', '2026-01-15T10:00:00-05:00', {
      ...{ inspectionId: randomUUID(), by: 'the certifier', scope: 'the whole operation' },
    }),
    ...batch(ids.newBatch, 'T-02', '2026-05-02'),
    lot(ids.newLot, 'FH-2', '2026-05-01'),
    paper(newPaper, '2026-05-03'),
  ];
  const { json } = await service.append(op.operationId, op.tokens.manager, records);
  expect(json.results.filter(({ status }: { status: string }) => status !== 'recorded')).toEqual([]);
  for (const bytes of [oldPaper, newPaper]) {
    const headers = { 'content-type': 'text/plain' };
    const kept = await service.call('POST', `${base()}/documents`, op.tokens.manager, bytes, headers);
    expect(kept.status).toBe(201);
  }
}

const make = (body: object = {}): Promise<Answer> =>
  service.call('POST', `${base()}/access-links`, op.tokens.manager, body);
const recordsOf = async (type: string): Promise<{ data: Record<string, unknown>; recordedBy: string }[]> =>
  (await service.get(`${base()}/records?type=${type}&limit=1000`, op.tokens.manager)).json.records;

describe('a reading link', () => {
  it('reads since the last inspection, unless said otherwise', async () => {
    expect((await make()).json).toMatchObject({ from: '2026-01-15', until: null });
  });

  it('without an inspection on record it reads five years back, and further nobody’s does (7 CFR 205.103(b)(3))', async () => {
    const young = await service.operation();
    const link = await service.call(
      'POST',
      `/api/v1/operations/${young.operationId}/access-links`,
      young.tokens.manager,
      {},
    );
    expect(link.json.from).toBe('2021-06-10');
    expect((await make({ from: '2021-06-10' })).status).toBe(201);
    const further = await make({ from: '2021-06-09' });
    expect([further.status, further.json.errors[0].pointer]).toEqual([422, '/from']);
  });

  it('is handed over as an address whose secret no server sees, and opens the operation as an inspector', async () => {
    const { token, url } = (await make()).json;
    expect(url).toBe(`${service.url}/inspection#token=${token}&operation=${op.operationId}`);
    // Who reads by it is told how far it reaches; nobody else has such a bound.
    const own = (await service.get('/api/v1/session', token)).json;
    expect(own).toMatchObject({ kind: 'link', reads: { from: expect.any(String) } });
    expect((await service.get('/api/v1/session', op.tokens.inspector)).json).not.toHaveProperty('reads');
    const list = await service.get('/api/v1/operations', token);
    expect(list.json.operations).toEqual([
      { operationId: op.operationId, name: 'Quillfen Growers', timeZone: 'America/New_York', role: 'inspector' },
    ]);
  });

  it('shows records of its period and what describes things for all time, and no others', async () => {
    const { token } = (await make()).json;
    const { records } = (await service.get(`${base()}/records?limit=1000`, token)).json;
    const codes = records.flatMap(({ data }: { data: { code?: string } }) => data.code ?? []);
    expect(codes).toEqual(['well', 'tote 2', 'FH', 'T-02', 'FH-2']);
    expect(records.some(({ type }: { type: string }) => type === 'operation.described')).toBe(true);
    const all = (await make({ from: '2025-01-01' })).json;
    const more = (await service.get(`${base()}/records?limit=1000`, all.token)).json.records;
    expect(more.flatMap(({ data }: { data: { code?: string } }) => data.code ?? [])).toContain('T-01');
  });

  it('opens batches, traces and papers of its period; those before it are as unknown as ones that do not exist', async () => {
    const { token } = (await make()).json;
    const status = async (path: string): Promise<number> => (await service.get(base() + path, token)).status;
    const list = (await service.get(`${base()}/batches`, token)).json.batches;
    expect(list.map(({ code }: { code: string }) => code)).toEqual(['T-02']);
    expect(await status(`/batches/${ids.newBatch}`)).toBe(200);
    expect(await status(`/batches/${ids.newBatch}/reviews`)).toBe(200);
    expect(await status(`/lots/${ids.newLot}/trace`)).toBe(200);
    expect(await status(`/documents/${digest(newPaper)}`)).toBe(200);
    for (const path of [
      `/batches/${ids.oldBatch}`,
      `/batches/${ids.oldBatch}/reviews`,
      `/lots/${ids.oldLot}/trace`,
      `/batches/${ids.oldBatch}/trace?direction=backward`,
      `/documents/${digest(oldPaper)}`,
    ]) {
      const before = await service.get(base() + path, token);
      const never = await service.get(
        base() + path.replace(/[0-9a-f]{64}/, '0'.repeat(64)).replace(/[0-9a-f-]{36}/, randomUUID()),
        token,
      );
      expect([path, before.status, before.json]).toEqual([path, 404, never.json]);
    }
  });

  it('a day that the period ends on is read to its last minute, in the operation’s zone', async () => {
    const { token } = (await make({ from: '2026-01-15', until: '2026-05-01' })).json;
    const { records } = (await service.get(`${base()}/records?limit=1000`, token)).json;
    const codes = records.flatMap(({ data }: { data: { code?: string } }) => data.code ?? []);
    expect(codes).toContain('FH-2');
    expect(codes).not.toContain('T-02');
  });

  it('reports keep to the period: filled in where not said, refused where it goes beyond', async () => {
    const { token } = (await make()).json;
    const report = (path: string): Promise<Answer> => service.get(`${base()}/reports/${path}`, token);
    const filled = await report('season-applications.json');
    expect([filled.status, JSON.stringify(filled.json.period ?? filled.json)]).toEqual([
      200,
      expect.stringContaining('2026-01-15'),
    ]);
    expect((await report('season-applications.json?from=2026-01-15&to=2026-06-01')).status).toBe(200);
    expect((await report('season-applications.json?from=2025-01-01')).status).toBe(403);
    expect((await report(`batch-record.json?batch=${ids.newBatch}`)).status).toBe(200);
    expect((await report(`batch-record.json?batch=${ids.oldBatch}`)).status).toBe(404);
    expect((await report(`lot-trace.json?lot=${ids.oldLot}`)).status).toBe(404);
  });

  it('reports name what they are about by either name, and it is looked at under both', async () => {
    const { token } = (await make()).json;
    const status = async (path: string): Promise<number> =>
      (await service.get(`${base()}/reports/${path}`, token)).status;
    for (const name of ['batch', 'batchId']) {
      expect([name, await status(`batch-record.json?${name}=${ids.newBatch}`)]).toEqual([name, 200]);
      expect([name, await status(`batch-record.json?${name}=${ids.oldBatch}`)]).toEqual([name, 404]);
    }
    for (const name of ['lot', 'lotId']) {
      expect([name, await status(`lot-trace.csv?${name}=${ids.newLot}`)]).toEqual([name, 200]);
      expect([name, await status(`lot-trace.csv?${name}=${ids.oldLot}`)]).toEqual([name, 404]);
    }
    for (const both of [
      `batch=${ids.newBatch}&batchId=${ids.oldBatch}`,
      `batchId=${ids.oldBatch}&batch=${ids.newBatch}`,
      `batchId=${ids.newBatch}&batch=${ids.oldBatch}`,
    ])
      expect((await service.get(`${base()}/reports/batch-record.json?${both}`, token)).text).not.toContain(
        'Batch record T-01',
      );
  });

  it('lets the log be checked: proofs, hashes, key and checkpoint; entries only of its period', async () => {
    const { token } = (await make()).json;
    for (const path of ['checkpoint', 'key', 'proof/inclusion?seq=4', 'proof/consistency?from=3']) {
      expect([path, (await service.get(`${base()}/log/${path}`, token)).status]).toEqual([path, 200]);
    }
    expect((await service.get(`${base()}/log/entries`, token)).status).toBe(403);
    expect((await service.get(`${base()}/log/tile/entries/000.p/4`, token)).status).toBe(403);
    expect((await service.get(`${base()}/log/tile/0/000.p/4`, token)).status).toBe(200);
    const all = await service.get(`${base()}/log/entries`, op.tokens.manager);
    const lines = all.text.trim().split('\n');
    const seq = lines.findIndex((line) => line.includes('"T-02"'));
    const one = await service.get(`${base()}/log/entries?from=${seq}&to=${seq + 1}`, token);
    expect([one.status, one.text.trim()]).toEqual([200, lines[seq]]);
  });

  it('only reads, and nothing that is not for reading from outside', async () => {
    const { token } = (await make()).json;
    for (const [method, path] of [
      ['POST', '/records'],
      ['POST', '/check'],
      ['POST', '/plan'],
      ['POST', '/documents'],
      ['POST', '/members'],
      ['POST', '/access-links'],
      ['GET', '/access-links'],
      ['GET', '/phones'],
      ['GET', '/kit'],
    ] as const) {
      expect([path, (await service.call(method, base() + path, token)).status]).toEqual([path, 403]);
    }
    expect((await service.call('POST', '/api/v1/operations', token, { name: 'x', timeZone: 'UTC' })).status).toBe(403);
    expect((await service.call('POST', '/api/v1/account/devices', token, { label: 'x' })).status).toBe(403);
    const other = await service.operation();
    expect((await service.get(`/api/v1/operations/${other.operationId}/records`, token)).status).toBe(404);
  });

  it('ends on its day', async () => {
    const { token, expiresAt } = (await make({ lifeDays: 3 })).json;
    expect(expiresAt).toBe(new Date(now + 3 * day).toISOString());
    now += 3 * day - 1000;
    expect((await service.get(`${base()}/records`, token)).status).toBe(200);
    now += 1000;
    expect((await service.get(`${base()}/records`, token)).status).toBe(401);
  });

  it('a manager withdraws it at once; nobody else makes or withdraws one', async () => {
    const { token, accessId } = (await make()).json;
    for (const role of ['recorder', 'reviewer', 'inspector'] as const) {
      expect((await service.call('POST', `${base()}/access-links`, op.tokens[role], {})).status).toBe(403);
      expect((await service.call('DELETE', `${base()}/access-links/${accessId}`, op.tokens[role])).status).toBe(403);
    }
    expect((await service.get(`${base()}/records`, token)).status).toBe(200);
    const path = `${base()}/access-links/${accessId}?reason=${encodeURIComponent('inspection over')}`;
    expect((await service.call('DELETE', path, op.tokens.manager)).status).toBe(204);
    expect((await service.get(`${base()}/records`, token)).status).toBe(401);
    expect((await service.call('DELETE', path, op.tokens.manager)).status).toBe(404);
  });
});

describe('in the log', () => {
  it('stands when a link was made, used and withdrawn, and not its secret', async () => {
    const link = (await make({ purpose: 'annual inspection', lifeDays: 20 })).json;
    const granted = (await recordsOf('access.granted')).filter(({ data }) => data['accessId'] === link.accessId);
    expect(granted).toEqual([
      expect.objectContaining({
        recordedBy: op.accounts.manager,
        data: {
          ...{ accessId: link.accessId, role: 'inspector', purpose: 'annual inspection' },
          ...{ from: '2026-01-15', expiresAt: link.expiresAt },
        },
      }),
    ]);
    const uses = async () => (await recordsOf('access.used')).filter(({ data }) => data['accessId'] === link.accessId);
    expect(await uses()).toEqual([]);
    await Promise.all(Array.from({ length: 8 }, () => service.get(`${base()}/batches`, link.token)));
    expect(await uses()).toEqual([expect.objectContaining({ data: { accessId: link.accessId, what: 'opened' } })]);
    now += day;
    await service.get(`${base()}/batches`, link.token);
    await service.get(`${base()}/findings`, link.token);
    expect(await uses()).toHaveLength(2);
    await service.call('DELETE', `${base()}/access-links/${link.accessId}?reason=over`, op.tokens.manager);
    const withdrawn = (await recordsOf('access.withdrawn')).filter(({ data }) => data['accessId'] === link.accessId);
    expect(withdrawn).toEqual([expect.objectContaining({ data: { accessId: link.accessId, reason: 'over' } })]);
    const log = await service.get(`${base()}/log/entries`, op.tokens.manager);
    expect(log.text).not.toContain(link.token);
    expect(log.text).not.toContain(createHash('sha256').update(link.token).digest('hex'));
    const listed = await service.get(`${base()}/access-links`, op.tokens.manager);
    expect(listed.text).not.toContain(link.token);
    expect(listed.json.links.at(-1)).toMatchObject({ accessId: link.accessId, purpose: 'annual inspection' });
  });

  it('such records are the service’s own: nobody sends them', async () => {
    for (const type of ['access.granted', 'access.used', 'access.withdrawn']) {
      const forged = record(type, '2026-06-01T00:00:00Z', {
        accessId: randomUUID(),
        role: 'inspector',
        what: 'opened',
      });
      const { json } = await service.append(op.operationId, op.tokens.manager, [forged]);
      expect([type, json.results[0].problem.code]).toEqual([type, 'not-permitted']);
    }
  });
});
