import { setTimeout as pause } from 'node:timers/promises';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { migrations } from '@furrowmark/migrations';
import { DataSource } from 'typeorm';
import { launched, startChild } from './support/child.ts';
import { testDatabase } from './support/database.ts';
import { temporaryFolder } from './support/folder.ts';
import { TestService } from './support/service.ts';
import { schemaOf } from './upgrade/schema.ts';

let first: TestService;
let server: DataSource;
let ownerUrl: string;
const made: string[] = [];
beforeAll(async () => {
  first = await TestService.start();
  ownerUrl = (await testDatabase()).databaseUrl ?? first.service.database.embedded?.ownerUrl ?? '';
  server = await new DataSource({ type: 'postgres', url: ownerUrl }).initialize();
}, 60_000);
afterAll(async () => {
  for (const name of made) await server.query(`DROP DATABASE IF EXISTS ${name} WITH (FORCE)`);
  await server.destroy();
  await first.close();
});

/** A database brought so many migrations far, and a connection to it. */
async function broughtTo(count: number): Promise<{ url: string; database: DataSource }> {
  const name = `furrowmark_interrupted_${process.pid}_${made.length}`;
  made.push(name);
  await server.query(`CREATE DATABASE ${name}`);
  const url = new URL(ownerUrl);
  url.pathname = `/${name}`;
  const database = await new DataSource({
    ...{ type: 'postgres', url: url.toString(), migrationsTableName: 'schema_migration' },
    ...{ migrations: migrations.slice(0, count), migrationsTransactionMode: 'each' },
  }).initialize();
  await database.runMigrations();
  return { url: url.toString(), database };
}

const applied = async (database: DataSource): Promise<string[]> => {
  const rows: { name: string }[] = await database.query('SELECT name FROM schema_migration ORDER BY id');
  return rows.map(({ name }) => name);
};
/** How many connections of a service that migrates there are, of those only the ones that wait for a lock where asked. */
async function migrating(database: DataSource, waiting: boolean): Promise<number> {
  const [row]: { count: number }[] = await database.query(
    `SELECT count(*)::int AS count FROM pg_stat_activity
      WHERE datname = current_database() AND application_name = 'furrowmark owner'
        AND (wait_event_type = 'Lock' OR NOT $1)`,
    [waiting],
  );
  return row?.count ?? 0;
}
async function until(condition: () => Promise<boolean>): Promise<void> {
  for (let i = 0; i < 600 && !(await condition()); i += 1) await pause(50);
  expect(await condition()).toBe(true);
}

describe('kill -9 in the middle of bringing a database up to date', () => {
  it.each([3, 8])(
    'from %i migrations: what was begun leaves no trace, and the next start goes on from there',
    async (count) => {
      const { url, database } = await broughtTo(count);
      const holder = await new DataSource({ type: 'postgres', url }).initialize();
      const locks = holder.createQueryRunner();
      try {
        const tables: { name: string }[] = await database.query(
          `SELECT relname AS name FROM pg_class WHERE relkind = 'r' AND relnamespace = 'public'::regnamespace
              AND relname <> 'schema_migration'`,
        );
        // A migration that touches any table there is waits in its middle, for as long as the test likes.
        await locks.startTransaction();
        await locks.query(`LOCK TABLE ${tables.map(({ name }) => name).join(', ')} IN ACCESS EXCLUSIVE MODE`);
        const dataDir = temporaryFolder(`interrupted-${count}`);
        const killed = await launched(dataDir, url);
        const gone = new Promise((resolve) => killed.once('exit', resolve));
        await until(async () => (await migrating(database, true)) > 0);
        killed.kill('SIGKILL');
        await gone;
        await locks.rollbackTransaction();
        await until(async () => (await migrating(database, false)) === 0);

        const done = await applied(database);
        expect(done.length).toBeGreaterThanOrEqual(count);
        expect(done.length).toBeLessThan(migrations.length);
        expect(done).toEqual(migrations.slice(0, done.length).map(({ name }) => name));
        const asFar = await broughtTo(done.length);
        expect(await schemaOf(database)).toEqual(await schemaOf(asFar.database));
        await asFar.database.destroy();

        const service = await startChild(dataDir, url);
        expect((await fetch(`${service.url}/readyz`)).status).toBe(200);
        expect(await service.end('SIGTERM')).toBe(0);
        const whole = await broughtTo(migrations.length);
        expect(await schemaOf(database)).toEqual(await schemaOf(whole.database));
        expect(await applied(database)).toEqual(await applied(whole.database));
        await whole.database.destroy();
      } finally {
        await locks.release();
        await holder.destroy();
        await database.destroy();
      }
    },
    90_000,
  );
});
