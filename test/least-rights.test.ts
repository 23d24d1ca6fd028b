import { readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { DataSource, type EntityManager } from 'typeorm';
import { assertLeastRights, NewerSchema, openDatabase, OperationScope } from '@furrowmark/api';
import { testDatabase, type TestDatabase } from './support/database.ts';
import { note, TestService, type TestOperation } from './support/service.ts';

let service: TestService;
let database: TestDatabase;
let mine: TestOperation;
let other: TestOperation;
let scope: OperationScope;
let owner: DataSource;
beforeAll(async () => {
  service = await TestService.start();
  database = await testDatabase();
  [mine, other] = [await service.operation(), await service.operation()];
  for (const op of [mine, other])
    await service.append(op.operationId, op.tokens.manager, [note('a'), note('b'), note('c')]);
  scope = service.service.context.get(OperationScope);
  const ownerUrl = database.databaseUrl ?? service.service.database.embedded?.ownerUrl ?? '';
  owner = await new DataSource({ type: 'postgres', url: ownerUrl }).initialize();
}, 60_000);
afterAll(async () => {
  await owner.destroy();
  await service.close();
});

const inMine = <T>(work: (manager: EntityManager) => Promise<T>): Promise<T> => scope.run(mine.operationId, work);

describe('what the service may do in the database', () => {
  it.each([
    'UPDATE log_entry SET type = type',
    'DELETE FROM log_entry',
    'TRUNCATE log_entry',
    'UPDATE tree_node SET hash = hash',
    'DELETE FROM tree_node',
    'TRUNCATE tree_node',
    'DELETE FROM log_head',
    'TRUNCATE log_head',
    'UPDATE log_head SET operation_id = operation_id',
    'UPDATE log_head SET size = size - 1',
    'ALTER TABLE log_entry DISABLE TRIGGER append_only',
    'ALTER TABLE log_entry DISABLE ROW LEVEL SECURITY',
    'DROP TABLE log_entry',
    'CREATE TABLE more (x int)',
    'SET ROLE furrowmark_owner',
    "SET session_replication_role = 'replica'",
    'UPDATE opening SET value = value',
    'UPDATE account SET name = name',
    'DELETE FROM access_token',
    'UPDATE schema_migration SET name = name',
  ])('not: %s', async (statement) => {
    await expect(inMine((manager) => manager.query(statement))).rejects.toThrow(
      /permission denied|append-only|must be owner|must be able to SET ROLE|does not exist/,
    );
  });

  it('sees the rows of the operation it named, and no other’s, in any table', async () => {
    for (const table of ['log_entry', 'log_head', 'tree_node', 'mention', 'membership', 'operation']) {
      const rows: { operation_id: string }[] = await inMine((manager) =>
        manager.query(`SELECT operation_id FROM ${table}`),
      );
      expect([table, [...new Set(rows.map((row) => row.operation_id))]]).toEqual([table, [mine.operationId]]);
    }
  });

  it('sees nothing at all without naming an operation', async () => {
    for (const table of ['log_entry', 'log_head', 'tree_node', 'mention', 'opening', 'membership', 'operation']) {
      expect(await service.service.database.dataSource.query(`SELECT * FROM ${table}`)).toEqual([]);
    }
  });

  it('inserts nothing into another operation', async () => {
    await expect(
      inMine((manager) =>
        manager.query(`INSERT INTO log_head (operation_id, root) VALUES ($1, $2)`, [
          '01976f00-0000-7000-8000-00000000dead',
          Buffer.alloc(32),
        ]),
      ),
    ).rejects.toThrow(/row-level security/);
    await expect(
      inMine((manager) => manager.query(`INSERT INTO mention VALUES ($1, $1, 1)`, [other.operationId])),
    ).rejects.toThrow(/row-level security/);
  });

  it('every table has row-level security, forced on its owner too, but for the list of migrations', async () => {
    const open: { relname: string }[] = await owner.query(`
      SELECT relname FROM pg_class WHERE relnamespace = 'public'::regnamespace AND relkind IN ('r', 'p')
         AND NOT (relrowsecurity AND relforcerowsecurity) ORDER BY relname`);
    expect(open.map((table) => table.relname)).toEqual(['schema_migration']);
  });

  it('every key of a table that belongs to operations begins with the operation, so that tables can be distributed by it', async () => {
    const keys: { name: string; first: string }[] = await owner.query(`
      SELECT c.conrelid::regclass || '.' || c.conname AS name, a.attname AS first
        FROM pg_constraint c
        JOIN pg_attribute a ON a.attrelid = c.conrelid AND a.attnum = c.conkey[1]
       WHERE c.contype IN ('p', 'u') AND c.connamespace = 'public'::regnamespace
         AND EXISTS (SELECT FROM pg_attribute o WHERE o.attrelid = c.conrelid AND o.attname = 'operation_id')`);
    expect(keys.length).toBeGreaterThan(8);
    expect(keys.filter((key) => key.first !== 'operation_id')).toEqual([]);
  });
});

describe('the owner, in ordinary use', () => {
  it.each(['UPDATE log_entry SET type = type', 'DELETE FROM log_entry', 'TRUNCATE log_entry', 'DELETE FROM tree_node'])(
    'is stopped by the triggers: %s',
    async (statement) => {
      await expect(owner.query(statement)).rejects.toThrow(/append-only/);
    },
  );
});

describe('starting', () => {
  it('is refused to a role that owns the tables or is a superuser', async () => {
    await expect(assertLeastRights(owner)).rejects.toThrow(/refuses to run as .* (superuser|owns the tables)/);
  });

  it('is refused on a database that a newer version has brought up to date', async () => {
    await owner.query(
      `INSERT INTO schema_migration (timestamp, name) VALUES (9999999999999, 'FromTheFuture9999999999999')`,
    );
    try {
      const again = openDatabase({ dataDir: database.dataDir, databaseUrl: ownerUrlOf(), serving: false });
      await expect(again).rejects.toThrow(NewerSchema);
    } finally {
      await owner.query(`DELETE FROM schema_migration WHERE name LIKE 'FromTheFuture%'`);
    }
  });

  it('keeps its secrets in files that only its user may read, and no token in the database', async () => {
    for (const name of ['service-login.json', 'log-signing-key', ...(database.databaseUrl ? [] : ['owner-password'])]) {
      expect([name, statSync(join(database.dataDir, name)).mode & 0o777]).toEqual([name, 0o600]);
    }
    const [{ tokens }] = await owner.query(`SELECT string_agg(t::text, ' ') AS tokens FROM access_token t`);
    expect(tokens).not.toContain(mine.tokens.manager);
    expect(readFileSync(join(database.dataDir, 'service-login.json'), 'utf8')).toMatch(/"secret":"[0-9a-f]{48}"/);
  });
});

const ownerUrlOf = (): string => database.databaseUrl ?? service.service.database.embedded?.ownerUrl ?? '';
