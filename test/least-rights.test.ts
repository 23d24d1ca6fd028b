import { randomUUID } from 'node:crypto';
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
    'UPDATE access_token SET account_id = account_id',
    'DELETE FROM membership',
    'DELETE FROM credential',
    'UPDATE credential SET account_id = account_id',
    'DELETE FROM invitation',
    'UPDATE invitation SET role = role',
    'UPDATE access_link SET reads_from = reads_from',
    'DELETE FROM access_link',
    'UPDATE signature SET root = root',
    'DELETE FROM signature',
    'UPDATE document SET sha256 = sha256',
    'DELETE FROM document',
    'TRUNCATE document',
    "COPY log_entry TO PROGRAM 'cat'",
    'UPDATE schema_migration SET name = name',
  ])('not: %s', async (statement) => {
    await expect(inMine((manager) => manager.query(statement))).rejects.toThrow(
      /permission denied|append-only|must be owner|must be superuser|must be able to SET ROLE|does not exist/,
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

describe('what the service sees of accounts', () => {
  const tables = ['account', 'access_token', 'credential', 'attempt', 'invitation'];
  const count = (manager: { query: (text: string) => Promise<unknown[]> }, table: string): Promise<number> =>
    manager.query(`SELECT 1 FROM ${table}`).then((rows) => rows.length);
  beforeAll(async () => {
    for (const op of [mine, other]) {
      const body = { login: `person-${op.operationId}`, password: 'nettle harrow tuesday bucket' };
      await service.call('PUT', '/api/v1/account/password', op.tokens.manager, body);
      await service.call('POST', '/api/v1/session', undefined, { ...body, password: 'wrong' });
      await service.call('POST', `/api/v1/operations/${op.operationId}/members`, op.tokens.manager, {
        ...{ name: 'Tobin Quay', role: 'recorder' },
      });
    }
  });

  it('nothing without naming one', async () => {
    for (const table of tables)
      expect([table, await count(service.service.database.dataSource, table)]).toEqual([table, 0]);
  });

  it('of an account its own rows; by a sign-in name, by a secret, only what belongs to it', async () => {
    const naming = (setting: string, value: string, table: string) =>
      service.service.database.dataSource.transaction(async (manager) => {
        await manager.query('SELECT set_config($1, $2, true)', [setting, value]);
        return manager.query(`SELECT * FROM ${table}`);
      });
    expect(await naming('app.account_id', mine.accounts.manager, 'account')).toHaveLength(1);
    expect(await naming('app.account_id', mine.accounts.manager, 'access_token')).toHaveLength(1);
    expect(await naming('app.account_id', mine.accounts.manager, 'credential')).toEqual([
      expect.objectContaining({ login: `person-${mine.operationId}` }),
    ]);
    expect(await naming('app.login', `person-${mine.operationId}`, 'credential')).toHaveLength(1);
    expect(await naming('app.login', '%', 'credential')).toEqual([]);
    expect(await naming('app.operation_id', mine.operationId, 'invitation')).toHaveLength(1);
    expect(await naming('app.token', '00'.repeat(32), 'access_token')).toEqual([]);
  });

  it('nothing is written for an account that was not named', async () => {
    const insert = service.service.database.dataSource.query(
      `INSERT INTO access_token (sha256, account_id, label, created_at) VALUES ($1, $2, 'forged', now())`,
      [Buffer.alloc(32), mine.accounts.manager],
    );
    await expect(insert).rejects.toThrow(/row-level security/);
  });
});

describe('who only reads, and who only wakes up by the clock', () => {
  const roles: DataSource[] = [];
  const login = async (role: string): Promise<DataSource> => {
    const name = `try_${role}_${process.pid}`;
    await owner.query(`DROP ROLE IF EXISTS ${name}`);
    await owner.query(`CREATE ROLE ${name} LOGIN PASSWORD 'try' IN ROLE ${role}`);
    await owner.query(`GRANT CONNECT ON DATABASE ${new URL(ownerUrlOf()).pathname.slice(1)} TO ${name}`);
    const url = new URL(ownerUrlOf());
    [url.username, url.password] = [name, 'try'];
    const source = await new DataSource({ type: 'postgres', url: url.toString() }).initialize();
    roles.push(source);
    return source;
  };
  afterAll(async () => {
    for (const source of roles) await source.destroy();
    for (const role of ['furrowmark_reader', 'furrowmark_scheduler']) {
      await owner.query(
        `REVOKE ALL ON DATABASE ${new URL(ownerUrlOf()).pathname.slice(1)} FROM try_${role}_${process.pid}`,
      );
      await owner.query(`DROP ROLE try_${role}_${process.pid}`);
    }
  });

  it('the reader reads one named operation’s log, changes nothing, and sees no secret, name or account', async () => {
    const reader = await login('furrowmark_reader');
    expect(await reader.query('SELECT 1 FROM log_entry')).toEqual([]);
    const seen = await reader.transaction(async (manager) => {
      await manager.query(`SELECT set_config('app.operation_id', $1, true)`, [mine.operationId]);
      return manager.query('SELECT DISTINCT operation_id FROM log_entry');
    });
    expect(seen).toEqual([{ operation_id: mine.operationId }]);
    for (const statement of [
      `INSERT INTO mention VALUES ('${mine.operationId}', '${mine.operationId}', 1)`,
      'UPDATE log_head SET size = size',
      'DELETE FROM batch_facts',
      ...['opening', 'account', 'access_token', 'credential', 'pin', 'invitation', 'membership', 'attempt'].map(
        (table) => `SELECT * FROM ${table}`,
      ),
    ]) {
      await expect(reader.query(statement)).rejects.toThrow(/permission denied/);
    }
  });

  it('the scheduler sees where work waits, in all operations, and nothing else', async () => {
    const scheduler = await login('furrowmark_scheduler');
    // Of operations that nobody works on, so that nothing is settled meanwhile.
    const waiting = [randomUUID(), randomUUID()];
    for (const operationId of waiting) {
      await owner.transaction(async (manager) => {
        await manager.query(`SELECT set_config('app.operation_id', $1, true)`, [operationId]);
        await manager.query(`INSERT INTO stale VALUES ($1, 'batch', $1, 1)`, [operationId]);
      });
    }
    const rows: { operation_id: string }[] = await scheduler.query('SELECT operation_id FROM stale');
    expect(rows.map((row) => row.operation_id)).toEqual(expect.arrayContaining(waiting));
    const tables: { relname: string }[] = await owner.query(`
      SELECT relname FROM pg_class WHERE relnamespace = 'public'::regnamespace AND relkind = 'r'
         AND relname NOT IN ('stale', 'schema_migration')`);
    expect(tables.length).toBeGreaterThan(12);
    for (const { relname } of tables) {
      await expect(scheduler.query(`SELECT * FROM ${relname}`)).rejects.toThrow(/permission denied/);
    }
    await expect(scheduler.query('DELETE FROM stale')).rejects.toThrow(/permission denied/);
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

  it.each([
    ['bypasses row-level security', 'BYPASSRLS', []],
    ['may make roles', 'CREATEROLE', []],
    ['may make databases', 'CREATEDB', []],
    ['may replicate', 'REPLICATION', []],
    ['may change or delete log entries', '', ['GRANT DELETE ON tree_node TO ROLE']],
    ['may change or delete log entries', '', ['GRANT UPDATE (type) ON log_entry TO ROLE']],
    ['may change or delete log entries', '', ['GRANT TRUNCATE ON signature TO ROLE']],
    ['may make tables', '', ['GRANT CREATE ON SCHEMA public TO ROLE']],
    ['may read or write everything on the server', '', ['GRANT pg_read_all_data TO ROLE']],
    ['may read or write everything on the server', '', ['GRANT pg_execute_server_program TO ROLE']],
  ])('is refused to a login of the service that %s', async (reason, attribute, grants) => {
    const name = `too_much_${process.pid}`;
    await owner.query(`CREATE ROLE ${name} LOGIN PASSWORD 'try' ${attribute} IN ROLE furrowmark_service`);
    try {
      const url = new URL(ownerUrlOf());
      [url.username, url.password] = [name, 'try'];
      const source = await new DataSource({ type: 'postgres', url: url.toString() }).initialize();
      try {
        if (attribute === '') await expect(assertLeastRights(source)).resolves.toBeUndefined();
        for (const grant of grants) await owner.query(grant.replace('ROLE', name));
        await expect(assertLeastRights(source)).rejects.toThrow(`refuses to run as ${name}, which ${reason}.`);
      } finally {
        await source.destroy();
      }
    } finally {
      await owner.query(`DROP OWNED BY ${name}`);
      await owner.query(`DROP ROLE ${name}`);
    }
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
