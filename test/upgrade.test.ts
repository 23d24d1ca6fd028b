import { createHash } from 'node:crypto';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { machineClock, startService, type Clock } from '@furrowmark/api';
import { migrations } from '@furrowmark/migrations';
import { DataSource } from 'typeorm';
import { Rebuild } from '../apps/api/src/archive/index.ts';
import { testDatabase } from './support/database.ts';
import { temporaryFolder } from './support/folder.ts';
import { note, TestService } from './support/service.ts';
import { schemaOf } from './upgrade/schema.ts';
import { keptFrom, releases, seed } from './upgrade/fixture.ts';

const operationId = '01976f00-0000-7000-8000-00000000aa01';
const accountId = '01976f00-0000-7000-8000-00000000aa02';
const gone = '01976f00-0000-7000-8000-00000000aa03';
const token = 'fmt_made-before-there-were-sessions';
const name = `furrowmark_upgrade_${process.pid}`;

let first: TestService;
let server: DataSource;
let url: URL;
/** An empty database of the test's own; gives its owner's address. */
async function fresh(): Promise<string> {
  await server.query(`DROP DATABASE IF EXISTS ${name} WITH (FORCE)`);
  await server.query(`CREATE DATABASE ${name}`);
  return url.toString();
}
beforeAll(async () => {
  first = await TestService.start();
  const { databaseUrl } = await testDatabase();
  url = new URL(databaseUrl ?? first.service.database.embedded?.ownerUrl ?? '');
  server = await new DataSource({ type: 'postgres', url: url.toString() }).initialize();
  url.pathname = `/${name}`;
}, 60_000);
afterAll(async () => {
  await server.query(`DROP DATABASE IF EXISTS ${name} WITH (FORCE)`);
  await server.destroy();
  await first.close();
});

describe('a database from before there were sessions and links', () => {
  it('is brought up to date; whoever could come in still can, and whoever could not still cannot', async () => {
    const old = await new DataSource({
      ...{ type: 'postgres', url: await fresh(), migrationsTableName: 'schema_migration' },
      ...{ migrations: migrations.slice(0, 6), migrationsTransactionMode: 'each' },
    }).initialize();
    await old.runMigrations();
    await old.transaction(async (manager) => {
      await manager.query(`SELECT set_config('app.operation_id', $1, true)`, [operationId]);
      await manager.query(`INSERT INTO operation VALUES ($1, 'Thistle End', 'America/Chicago', now())`, [operationId]);
      for (const id of [accountId, gone]) {
        await manager.query(`INSERT INTO account VALUES ($1, 'Orla', now())`, [id]);
        const secret = createHash('sha256')
          .update(`${token}${id === gone ? '-gone' : ''}`)
          .digest();
        await manager.query(`INSERT INTO access_token VALUES ($1, $2, 'x', now(), NULL, $3)`, [
          ...[secret, id, id === gone ? new Date() : null],
        ]);
      }
      await manager.query(`INSERT INTO membership VALUES ($1, $2, 'manager', now())`, [operationId, accountId]);
      await manager.query('INSERT INTO log_head (operation_id, root) VALUES ($1, $2)', [
        ...[operationId, createHash('sha256').digest()],
      ]);
    });
    await old.destroy();

    const databaseUrl = url.toString();
    const service = await startService({ dataDir: temporaryFolder('upgrade'), databaseUrl, log: 'error' });
    try {
      const ask = (secret: string, path = '/api/v1/operations', method = 'GET', body?: object): Promise<Response> =>
        fetch(service.url + path, {
          method,
          headers: { authorization: `Bearer ${secret}`, 'content-type': 'application/json' },
          ...(body === undefined ? {} : { body: JSON.stringify(body) }),
        });
      expect(await (await ask(token)).json()).toEqual({
        operations: [{ operationId, name: 'Thistle End', timeZone: 'America/Chicago', role: 'manager' }],
      });
      expect((await ask(`${token}-gone`)).status).toBe(401);
      const phone = await ask(token, `/api/v1/operations/${operationId}/phones`, 'POST', { label: 'phone' });
      expect(phone.status).toBe(201);
    } finally {
      await service.close();
    }
  }, 60_000);
});

describe.each(releases())('the database that release %s left behind', (release) => {
  const { sql, told } = keptFrom(release);
  const base = `/api/v1/operations/${told.operationId}`;
  const { manager, recorder, phone, link } = told.tokens;

  it('is brought up to date: the same log, the same ways in, and it is recorded on', async () => {
    const databaseUrl = await fresh();
    const old = await new DataSource({ type: 'postgres', url: databaseUrl }).initialize();
    await old.query(sql);
    await old.destroy();
    const dataDir = temporaryFolder(`upgrade-${release}`);
    writeFileSync(join(dataDir, 'log-signing-key'), seed, { mode: 0o600 });
    // It is the day after the release was left: no way in has run out.
    const clock = clockAt(Date.parse(told.madeAt) + 86_400_000);
    const service = await startService({ dataDir, databaseUrl, log: 'error', clock });
    try {
      const ask = async (method: string, path: string, token: string | null, body?: object) => {
        const answer = await fetch(service.url + path, {
          method,
          headers: {
            'content-type': 'application/json',
            ...(token === null ? {} : { authorization: `Bearer ${token}` }),
          },
          ...(body === undefined ? {} : { body: JSON.stringify(body) }),
        });
        return { status: answer.status, text: await answer.text() };
      };
      expect((await fetch(`${service.url}/readyz`)).status).toBe(200);
      // A released migration that somebody changed afterwards would leave old databases otherwise than new ones.
      const upgraded = await new DataSource({ type: 'postgres', url: databaseUrl }).initialize();
      expect(await schemaOf(upgraded)).toEqual(await schemaOf(server));
      await upgraded.destroy();

      const entries = await ask('GET', `${base}/log/entries?from=0`, manager);
      expect(createHash('sha256').update(entries.text).digest('hex')).toBe(told.entries);
      expect((await ask('GET', `${base}/log/checkpoint`, manager)).text).toBe(told.checkpoint);
      expect((await ask('GET', `${base}/log/key`, phone)).text.trim()).toBe(told.key);
      for (const { batchId, code } of told.batches) {
        const batch = await ask('GET', `${base}/batches/${batchId}`, recorder);
        expect([batch.status, JSON.parse(batch.text).code]).toEqual([200, code]);
      }
      const { login, password } = told;
      expect((await ask('POST', '/api/v1/session', null, { login, password })).status).toBe(201);
      expect((await ask('POST', '/api/v1/session', null, { login, password: `${password}.` })).status).toBe(401);
      const read: { records: unknown[] } = JSON.parse((await ask('GET', `${base}/records?limit=1000`, manager)).text);
      const size = entries.text.split('\n').length - 1;
      expect(read.records).toHaveLength(size);
      const added = await ask('POST', `${base}/records`, recorder, { records: [note('after the upgrade')] });
      expect(JSON.parse(added.text).results).toEqual([expect.objectContaining({ status: 'recorded', seq: size })]);

      // A reader with a link comes in too, which is itself recorded.
      expect((await ask('GET', `${base}/records`, link)).status).toBe(200);

      const rebuilt = await service.context.get(Rebuild).run(told.operationId, { mend: true });
      expect([rebuilt.indexes, rebuilt.size]).toEqual([[], size + 2]);
    } finally {
      await service.close();
    }
  }, 60_000);
});

const clockAt = (instant: number): Clock => {
  const ahead = instant - machineClock.now();
  return { now: () => machineClock.now() + ahead };
};

it('a release is kept here, so that what follows it is tried on it', () => {
  expect(releases()).toContain('0.1.0');
});
