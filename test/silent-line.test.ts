import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { join } from 'node:path';
import { startService, type RunningService } from '@furrowmark/api';
import { startEmbeddedDatabase, type EmbeddedDatabase } from '../apps/api/src/database/embedded.ts';
import { startProxy, type Proxy } from './faults/proxy.ts';
import { readyCluster } from './support/cluster.ts';
import { temporaryFolder } from './support/folder.ts';
import { note } from './support/service.ts';

/*
 * A line to the database on which nothing comes any more, and nobody says so: a cable pulled, a firewall that forgot.
 * The service waits two seconds here, a minute in use.
 */
const patience = 2_000;
const home = temporaryFolder('silent');
let database: EmbeddedDatabase;
let proxy: Proxy;
let service: RunningService;
let token = '';
let operationId = '';

beforeAll(async () => {
  await readyCluster(join(home, 'server'));
  database = await startEmbeddedDatabase(join(home, 'server'));
  const address = new URL(database.ownerUrl);
  proxy = await startProxy(Number(address.port));
  address.port = String(proxy.port);
  const databaseUrl = address.toString();
  service = await startService({ dataDir: join(home, 'data'), databaseUrl, log: 'silent', databasePatience: patience });
  const { accountId } = await service.createAccount({ name: 'Ines' });
  ({ token } = await service.issueToken({ accountId, label: 'test' }));
  const made = await service.createOperation(
    { accountId, name: 'Ines' },
    { name: 'Quillfen Growers', timeZone: 'America/New_York' },
  );
  if (!('operationId' in made)) throw new Error(made.refused.detail);
  operationId = made.operationId;
});
afterAll(async () => {
  await service.close();
  await proxy.close();
  await database.stop();
});

const ask = (path: string, body?: unknown): Promise<Response> =>
  fetch(`${service.url}/api/v1/operations/${operationId}${path}`, {
    headers: { authorization: `Bearer ${token}`, 'content-type': 'application/json' },
    ...(body === undefined ? {} : { method: 'POST', body: JSON.stringify(body) }),
    signal: AbortSignal.timeout(20_000),
  });

describe('a line to the database that went silent', () => {
  it('requests are answered 503 in time, and the next ones go through once there is a line again', async () => {
    const record = note('before the silence');
    expect((await ask('/records', { records: [record] })).status).toBe(200);
    proxy.silence();
    const sent = note('into the silence');
    const answers = await Promise.all([ask('/records', { records: [sent] }), ask('/records'), ask('/batches')]);
    for (const answer of answers) {
      expect(answer.status).toBe(503);
      expect(answer.headers.get('retry-after')).toBe('1');
    }
    proxy.heal();
    const again: { results: { status: string }[] } = JSON.parse(
      await (await ask('/records', { records: [sent] })).text(),
    );
    expect(again.results.map(({ status }) => status)).toEqual(['recorded']);
    const listed: { records: { id: string }[] } = JSON.parse(await (await ask('/records?limit=10')).text());
    expect(listed.records.map(({ id }) => id)).toEqual(expect.arrayContaining([record.id, sent.id]));
  });

  it('whoever holds a lock and is not heard of any more loses it', async () => {
    const gone = service.database.dataSource.createQueryRunner();
    await gone.startTransaction();
    await gone.query('SELECT pg_advisory_xact_lock(20261125)');
    const [row]: { got: boolean }[] = await service.database.dataSource.query(
      'SELECT pg_try_advisory_lock(20261125) AS got',
    );
    expect(row?.got).toBe(false);
    let got = false;
    const until = performance.now() + patience * 3;
    while (!got && performance.now() < until) {
      await new Promise((next) => setTimeout(next, 200));
      const [tried]: { got: boolean }[] = await service.database.dataSource.query(
        'SELECT pg_try_advisory_lock(20261125) AS got',
      );
      got = tried?.got === true;
    }
    expect(got).toBe(true);
    await gone.release().catch(() => undefined);
  });

  it('a statement that takes too long is ended, and said to be so', async () => {
    await expect(service.database.dataSource.query('SELECT pg_sleep(30)')).rejects.toThrow(
      /canceling statement due to statement timeout/,
    );
  });
});
