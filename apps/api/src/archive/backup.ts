import { createReadStream } from 'node:fs';
import { readdir, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { base64, utf8, verifierKeyText, type FileToPack } from '@furrowmark/log';
import type { DataSource, QueryRunner } from 'typeorm';
import { z } from 'zod';
import { int8, LogKey } from '../log/index.ts';

/** What a backup says of itself; held against what is in it when it is written and when it is put back. */
export const backupManifest = z.object({
  format: z.literal('furrowmark-backup'),
  version: z.literal(1),
  madeAt: z.string(),
  /** The schema's migrations, in order. */
  migrations: z.array(z.string()),
  /** Every table, in an order in which it can be filled, and its rows. */
  tables: z.array(z.object({ table: z.string().regex(/^[a-z_]+$/), rows: z.number() })),
  operations: z.array(z.object({ operationId: z.string(), size: z.number(), root: z.string(), firstKey: z.string() })),
});
export type BackupManifest = z.output<typeof backupManifest>;

const names = z.array(z.object({ name: z.string() }));
const references = z.array(z.object({ from: z.string(), to: z.string() }));
const heads = z.array(z.object({ operation_id: z.string(), size: int8, root: z.instanceof(Buffer) }));
const lines = z.array(z.object({ line: z.string() }));
const counts = z.array(z.object({ count: int8 }));
const inOneFile = 1_000;
/** Rows in order, so that a log's entries can be checked as they come. */
const orders: Readonly<Record<string, string>> = { log_entry: 'ORDER BY operation_id, seq' };

/**
 * The files of a backup: every row of every table as JSON, read by the owner in one snapshot, and the attached documents.
 * The signing keys are not in it. `work` gets the files while the snapshot lasts.
 */
export async function backupFiles(
  owner: DataSource,
  dataDir: string,
  now: number,
  work: (files: AsyncIterable<FileToPack>, manifest: BackupManifest) => Promise<void>,
): Promise<BackupManifest> {
  const runner = owner.createQueryRunner();
  await runner.connect();
  try {
    await runner.startTransaction('REPEATABLE READ');
    const tables = await tablesOf(runner);
    await seeAll(runner, tables);
    const manifest = await manifestOf(runner, tables, dataDir, now);
    await work(files(runner, manifest, dataDir), manifest);
    return manifest;
  } finally {
    // Nothing was changed, and what seeAll() changed is undone.
    if (runner.isTransactionActive) await runner.rollbackTransaction();
    await runner.release();
  }
}

/**
 * Row-level security is forced on the tables' owner too. One that neither is a superuser nor may look past it lifts it for
 * this transaction; that locks the tables, so appends wait until the backup is done.
 */
export async function seeAll(runner: QueryRunner, tables: readonly string[]): Promise<boolean> {
  const [role] = z
    .array(z.object({ all: z.boolean() }))
    .parse(await runner.query('SELECT rolsuper OR rolbypassrls AS all FROM pg_roles WHERE rolname = current_user'));
  if (role?.all === true) return false;
  for (const table of tables) await runner.query(`ALTER TABLE ${table} NO FORCE ROW LEVEL SECURITY`);
  return true;
}

/** Every table but the list of migrations and the reports just being made, those that others refer to first. */
export async function tablesOf(runner: QueryRunner): Promise<string[]> {
  const all = names
    .parse(
      await runner.query(
        `SELECT relname AS name FROM pg_class WHERE relkind = 'r' AND relnamespace = 'public'::regnamespace
            AND relname NOT IN ('schema_migration', 'report_job') ORDER BY relname`,
      ),
    )
    .map(({ name }) => name);
  const refers = references.parse(
    await runner.query(
      `SELECT a.relname AS from, b.relname AS to FROM pg_constraint c
         JOIN pg_class a ON a.oid = c.conrelid JOIN pg_class b ON b.oid = c.confrelid
        WHERE c.contype = 'f' AND a.oid <> b.oid`,
    ),
  );
  const ordered: string[] = [];
  while (ordered.length < all.length) {
    const next = all.find(
      (name) => !ordered.includes(name) && refers.every(({ from, to }) => from !== name || ordered.includes(to)),
    );
    if (next === undefined) throw new Error('the tables refer to each other in a circle');
    ordered.push(next);
  }
  return ordered;
}

async function manifestOf(
  runner: QueryRunner,
  tables: readonly string[],
  dataDir: string,
  now: number,
): Promise<BackupManifest> {
  const counted = [];
  for (const table of tables) {
    const [row] = counts.parse(await runner.query(`SELECT count(*) AS count FROM ${table}`));
    counted.push({ table, rows: row?.count ?? 0 });
  }
  const applied = names.parse(await runner.query('SELECT name FROM schema_migration ORDER BY id'));
  const keys = await LogKey.open(dataDir);
  const logs = heads.parse(await runner.query('SELECT operation_id, size, root FROM log_head ORDER BY operation_id'));
  return {
    format: 'furrowmark-backup',
    version: 1,
    madeAt: new Date(now).toISOString(),
    migrations: applied.map(({ name }) => name),
    tables: counted,
    operations: logs.map(({ operation_id: operationId, size, root }) => {
      const first = keys.signer(operationId, null);
      return { operationId, size, root: base64(root), firstKey: first === null ? '' : verifierKeyText(first.key) };
    }),
  };
}

async function* files(runner: QueryRunner, manifest: BackupManifest, dataDir: string): AsyncGenerator<FileToPack> {
  yield whole('backup.json', utf8(`${JSON.stringify(manifest, null, 2)}\n`));
  for (const { table } of manifest.tables) {
    await runner.query(
      `DECLARE backup NO SCROLL CURSOR FOR SELECT to_jsonb(t)::text AS line FROM ${table} t ${orders[table] ?? ''}`,
    );
    for (let part = 0; ; part += 1) {
      const page = lines.parse(await runner.query(`FETCH ${inOneFile} FROM backup`));
      if (page.length === 0) break;
      const body = utf8(page.map(({ line }) => `${line}\n`).join(''));
      yield whole(`tables/${table}/${String(part).padStart(8, '0')}.ndjson`, body);
    }
    await runner.query('CLOSE backup');
  }
  yield* documentFiles(join(dataDir, 'documents'));
}

/** Each document once, named by its digest. */
async function* documentFiles(folder: string): AsyncGenerator<FileToPack> {
  const seen = new Set<string>();
  const found = await readdir(folder, { recursive: true, withFileTypes: true }).catch(() => []);
  for (const entry of found) {
    if (!entry.isFile() || !/^[0-9a-f]{64}$/.test(entry.name) || seen.has(entry.name)) continue;
    seen.add(entry.name);
    const path = join(entry.parentPath, entry.name);
    yield { name: `documents/${entry.name}`, size: (await stat(path)).size, body: chunksOf(path) };
  }
}

async function* chunksOf(path: string): AsyncGenerator<Uint8Array> {
  for await (const chunk of createReadStream(path)) if (Buffer.isBuffer(chunk)) yield chunk;
}

const whole = (name: string, body: Uint8Array): FileToPack => ({ name, size: body.length, body });
