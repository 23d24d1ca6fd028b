import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { DataSource } from 'typeorm';
import { testDatabase } from './support/database.ts';
import { TestService } from './support/service.ts';

/*
 * The rules under which PostgreSQL can be spread over many servers by an operation's id, as the Citus documentation gives
 * them (“Determining the Distribution Column”, “Creating and Modifying Distributed Objects”; from memory): every primary
 * and unique key of a distributed table contains the distribution column, foreign keys between distributed tables do too,
 * others only point at tables that stand on every server.
 */

/**
 * Small tables about people, the same on every server: they are asked before it is known which operation somebody wants,
 * by the hash of a secret or by a name.
 */
const everywhere = ['access_token', 'account', 'attempt', 'credential', 'invitation', 'schema_migration'];

let service: TestService;
let owner: DataSource;
const rows = async <T>(sql: string): Promise<T[]> => owner.query(sql);
beforeAll(async () => {
  service = await TestService.start();
  const { databaseUrl } = await testDatabase();
  const url = databaseUrl ?? service.service.database.embedded?.ownerUrl ?? '';
  owner = await new DataSource({ type: 'postgres', url }).initialize();
}, 60_000);
afterAll(async () => {
  await owner.destroy();
  await service.close();
});

describe('the schema can be spread by operation', () => {
  it('every table is about one operation, or one of the few about people', async () => {
    const without = await rows<{ name: string }>(
      `SELECT relname AS name FROM pg_class c WHERE relkind = 'r' AND relnamespace = 'public'::regnamespace
          AND NOT EXISTS (SELECT FROM pg_attribute a WHERE a.attrelid = c.oid AND a.attname = 'operation_id'
                             AND a.attnotnull AND NOT a.attisdropped)`,
    );
    expect(without.map(({ name }) => name).filter((name) => !everywhere.includes(name))).toEqual([]);
  });

  it('every primary and unique key begins with the operation, so none has to be looked for on all servers', async () => {
    const keys = await rows<{ table: string; first: string; name: string }>(
      `SELECT c.relname AS table, a.attname AS first, i.indexrelid::regclass::text AS name
         FROM pg_index i JOIN pg_class c ON c.oid = i.indrelid
         LEFT JOIN pg_attribute a ON a.attrelid = c.oid AND a.attnum = i.indkey[0]
        WHERE c.relnamespace = 'public'::regnamespace AND i.indisunique`,
    );
    expect(keys.length).toBeGreaterThan(20);
    const others = keys.filter(({ table, first }) => !everywhere.includes(table) && first !== 'operation_id');
    expect(others).toEqual([]);
  });

  it('no foreign key goes from one operation to another, nor from what stands everywhere into one operation', async () => {
    const keys = await rows<{ from: string; to: string; columns: string[]; targets: string[] }>(
      `SELECT f.relname AS from, t.relname AS to,
              array(SELECT a.attname::text FROM unnest(k.conkey) WITH ORDINALITY u (n, i)
                      JOIN pg_attribute a ON a.attrelid = k.conrelid AND a.attnum = u.n ORDER BY u.i) AS columns,
              array(SELECT a.attname::text FROM unnest(k.confkey) WITH ORDINALITY u (n, i)
                      JOIN pg_attribute a ON a.attrelid = k.confrelid AND a.attnum = u.n ORDER BY u.i) AS targets
         FROM pg_constraint k JOIN pg_class f ON f.oid = k.conrelid JOIN pg_class t ON t.oid = k.confrelid
        WHERE k.contype = 'f' AND k.connamespace = 'public'::regnamespace`,
    );
    expect(keys.length).toBeGreaterThan(3);
    const crossing = keys.filter(
      ({ from, to, columns, targets }) =>
        !everywhere.includes(to) &&
        (everywhere.includes(from) || columns[0] !== 'operation_id' || targets[0] !== 'operation_id'),
    );
    expect(crossing).toEqual([]);
  });

  it('nothing is numbered across operations: the only sequence counts migrations', async () => {
    const sequences = await rows<{ name: string }>(
      `SELECT relname AS name FROM pg_class WHERE relkind = 'S' AND relnamespace = 'public'::regnamespace`,
    );
    expect(sequences.map(({ name }) => name)).toEqual(['schema_migration_id_seq']);
  });
});
