import type { DataSource } from 'typeorm';
import { z } from 'zod';
import { migrations } from '@furrowmark/migrations';
import { prepareQueue } from './job-queue.ts';

const names = z.array(z.object({ name: z.string() }));

/** The database was written by a newer program, which this one must not touch. */
export class NewerSchema extends Error {
  constructor(readonly unknown: readonly string[]) {
    super(
      `The database was brought up to date by a newer Furrowmark (${unknown.join(', ')}). ` +
        `Start that version, or restore a backup taken before it.`,
    );
  }
}

/** Brings the schema up to date, one process at a time; refuses one that is newer than this program. */
export async function migrate(owner: DataSource): Promise<void> {
  const lock = owner.createQueryRunner();
  try {
    await lock.query(`SELECT pg_advisory_lock(hashtext('furrowmark migration'))`);
    const [found] = z
      .array(z.object({ there: z.boolean() }))
      .parse(await lock.query(`SELECT to_regclass('public.schema_migration') IS NOT NULL AS there`));
    if (found?.there) {
      const known = new Set<string>(migrations.map((migration) => migration.name));
      const applied = names.parse(await lock.query(`SELECT name FROM schema_migration ORDER BY id`));
      const unknown = applied.map(({ name }) => name).filter((name) => !known.has(name));
      if (unknown.length > 0) throw new NewerSchema(unknown);
    }
    await owner.runMigrations();
    await prepareQueue(owner);
  } finally {
    await lock.query(`SELECT pg_advisory_unlock(hashtext('furrowmark migration'))`).catch(() => undefined);
    await lock.release();
  }
}

/** True where every migration this program knows has been applied. */
export async function migrated(dataSource: DataSource): Promise<boolean> {
  const applied = names.parse(await dataSource.query(`SELECT name FROM schema_migration`));
  const done = new Set(applied.map(({ name }) => name));
  return migrations.every(({ name }) => done.has(name));
}
