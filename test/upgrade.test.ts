import { createHash } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { startService } from '@furrowmark/api';
import { migrations } from '@furrowmark/migrations';
import { DataSource } from 'typeorm';
import { testDatabase } from './support/database.ts';
import { temporaryFolder } from './support/folder.ts';
import { TestService } from './support/service.ts';

const operationId = '01976f00-0000-7000-8000-00000000aa01';
const accountId = '01976f00-0000-7000-8000-00000000aa02';
const gone = '01976f00-0000-7000-8000-00000000aa03';
const token = 'fmt_made-before-there-were-sessions';
const name = `furrowmark_upgrade_${process.pid}`;

let first: TestService;
let server: DataSource;
let url: URL;
beforeAll(async () => {
  first = await TestService.start();
  const { databaseUrl } = await testDatabase();
  url = new URL(databaseUrl ?? first.service.database.embedded?.ownerUrl ?? '');
  server = await new DataSource({ type: 'postgres', url: url.toString() }).initialize();
  await server.query(`DROP DATABASE IF EXISTS ${name}`);
  await server.query(`CREATE DATABASE ${name}`);
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
      ...{ type: 'postgres', url: url.toString(), migrationsTableName: 'schema_migration' },
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
