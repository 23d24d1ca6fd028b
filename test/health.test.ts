import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { startService, type RunningService } from '@furrowmark/api';
import { startEmbeddedDatabase, type EmbeddedDatabase } from '../apps/api/src/database/embedded.ts';
import { readyCluster } from './support/cluster.ts';
import { temporaryFolder } from './support/folder.ts';

const place = temporaryFolder('health-database');
let database: EmbeddedDatabase;
let service: RunningService;
const get = (path: string): Promise<Response> => fetch(service.url + path);

beforeAll(async () => {
  await readyCluster(place);
  database = await startEmbeddedDatabase(place);
  const dataDir = temporaryFolder('health-data');
  service = await startService({ dataDir, databaseUrl: database.ownerUrl, log: 'silent' });
}, 60_000);
afterAll(async () => {
  await service.close();
  await database.stop();
});

describe('what the service tells whoever looks after it', () => {
  it('while the database is away it is alive and not ready; with the database it is ready again by itself', async () => {
    expect((await get('/readyz')).status).toBe(200);
    await database.stop();
    const away = await get('/readyz');
    expect([away.status, Number(away.headers.get('retry-after')) > 0]).toEqual([503, true]);
    expect((await get('/healthz')).status).toBe(200);
    await database.revive();
    expect((await get('/readyz')).status).toBe(200);
  }, 60_000);

  it('its metrics count requests and name no operation, path or person', async () => {
    const { accountId } = await service.createAccount({ name: 'Ottilie Brandwein' });
    const { token } = await service.issueToken({ accountId, label: 'test' });
    const person = { accountId, name: 'Ottilie Brandwein' };
    const made = await service.createOperation(person, { name: 'Quillfen Growers', timeZone: 'UTC' });
    if (!('operationId' in made)) throw new Error(made.refused.detail);
    const path = `/api/v1/operations/${made.operationId}/records`;
    const answer = await fetch(service.url + path, { headers: { authorization: `Bearer ${token}` } });
    expect(answer.status).toBe(200);
    expect(answer.headers.get('x-request-id')).toMatch(/^[0-9a-f-]{36}$/);
    await answer.text();
    const text = await (await get('/metrics')).text();
    expect(text).toMatch(/^furrowmark_disk_bytes\{what="free"\} [1-9]/m);
    expect(text).toMatch(/^furrowmark_http_request_seconds_count\{method="GET",status="200"\} [1-9]/m);
    for (const secret of [made.operationId, accountId, 'Quillfen', 'Brandwein', token, '/api/']) {
      expect(text.includes(secret) ? secret : '').toBe('');
    }
  });
});
