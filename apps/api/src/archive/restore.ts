import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { linesOf, unpackTar } from '@furrowmark/log';
import type { DataSource, QueryRunner } from 'typeorm';
import { z } from 'zod';
import type { BackupManifest } from './backup.ts';
import { seeAll, tablesOf } from './backup.ts';

/** The backup cannot be put here; nothing was changed. */
export class CannotRestore extends Error {
  override readonly name = 'CannotRestore';
}

const names = z.array(z.object({ name: z.string() }));
const some = z.array(z.object({ some: z.boolean() }));
const operations = z.array(z.object({ operation_id: z.string() }));
const row = z.record(z.string(), z.unknown());

/**
 * Fills an empty, migrated database from a backup that was checked, in one transaction: either all of it is there
 * afterwards or nothing. Documents are laid under the data folder.
 */
export async function restoreRows(
  owner: DataSource,
  dataDir: string,
  manifest: BackupManifest,
  tar: AsyncIterable<Uint8Array>,
): Promise<void> {
  const runner = owner.createQueryRunner();
  await runner.connect();
  try {
    await runner.startTransaction();
    await assertFits(runner, manifest);
    const tables = await tablesOf(runner);
    const lifted = await seeAll(runner, tables);
    const [there] = some.parse(
      await runner.query('SELECT EXISTS (SELECT FROM account) OR EXISTS (SELECT FROM operation) AS some'),
    );
    if (there?.some !== false)
      throw new CannotRestore('There are accounts or operations here already. Restore into an empty database.');
    for await (const { name, body } of unpackTar(tar)) {
      const table = /^tables\/([a-z_]+)\/\d+\.ndjson$/.exec(name)?.[1];
      if (table !== undefined && tables.includes(table)) await insert(runner, table, body);
      else if (name.startsWith('documents/')) await layDown(runner, dataDir, name.slice('documents/'.length), body);
    }
    if (lifted) for (const table of tables) await runner.query(`ALTER TABLE ${table} FORCE ROW LEVEL SECURITY`);
    await runner.commitTransaction();
  } catch (error) {
    if (runner.isTransactionActive) await runner.rollbackTransaction();
    throw error;
  } finally {
    await runner.release();
  }
}

/** The backup's rows fit the schema that they were taken from. */
async function assertFits(runner: QueryRunner, { migrations }: BackupManifest): Promise<void> {
  const here = names.parse(await runner.query('SELECT name FROM schema_migration ORDER BY id')).map(({ name }) => name);
  const newer = migrations.filter((name) => !here.includes(name));
  if (newer.length > 0)
    throw new CannotRestore(
      `The backup was made by a newer version (${newer.join(', ')}). Restore it with that version.`,
    );
  const older = here.filter((name) => !migrations.includes(name));
  if (older.length > 0)
    throw new CannotRestore(
      `The backup was made by an older version, before ${older[0] ?? ''}. Restore it with that version; the next start of this one brings it up to date.`,
    );
}

async function insert(runner: QueryRunner, table: string, body: AsyncIterable<Uint8Array>): Promise<void> {
  const rows: string[] = [];
  for await (const line of linesOf(body, Infinity)) rows.push(Buffer.from(line).toString('utf8'));
  const [first] = rows;
  if (first === undefined) return;
  const columns = Object.keys(row.parse(JSON.parse(first)));
  if (!columns.every((column) => /^[a-z_0-9]+$/.test(column)))
    throw new CannotRestore(`${table} has columns that do not exist.`);
  const list = columns.map((column) => `"${column}"`).join(', ');
  await runner.query(
    `INSERT INTO ${table} (${list}) SELECT ${list} FROM jsonb_populate_recordset(NULL::${table}, $1::jsonb)`,
    [`[${rows.join(',')}]`],
  );
}

/** The document's file, for every operation that names it. */
async function layDown(
  runner: QueryRunner,
  dataDir: string,
  sha256: string,
  body: AsyncIterable<Uint8Array>,
): Promise<void> {
  const chunks: Uint8Array[] = [];
  for await (const chunk of body) chunks.push(chunk);
  const naming = operations.parse(
    await runner.query('SELECT operation_id FROM document WHERE sha256 = $1', [Buffer.from(sha256, 'hex')]),
  );
  for (const { operation_id: operationId } of naming) {
    const folder = join(dataDir, 'documents', operationId, sha256.slice(0, 2));
    await mkdir(folder, { recursive: true, mode: 0o700 });
    await writeFile(join(folder, sha256), Buffer.concat(chunks), { mode: 0o600, flush: true });
  }
}
