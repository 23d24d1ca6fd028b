import type { MigrationInterface, QueryRunner } from 'typeorm';
import { forwardOnly, run } from './statements.ts';

/** A role for whatever wakes up by the clock: it sees which operations have work waiting, and no record, name or token. */
export class Scheduler1764000000010 implements MigrationInterface {
  readonly name = 'Scheduler1764000000010';

  up(queryRunner: QueryRunner): Promise<void> {
    return run(queryRunner, [
      `DO $$ BEGIN
         CREATE ROLE furrowmark_scheduler NOLOGIN NOSUPERUSER NOCREATEDB NOCREATEROLE NOBYPASSRLS;
       EXCEPTION WHEN duplicate_object OR unique_violation THEN NULL;
       END $$`,
      `GRANT USAGE ON SCHEMA public TO furrowmark_scheduler`,
      `GRANT SELECT ON schema_migration, stale TO furrowmark_scheduler`,
      `CREATE POLICY scheduler_reads ON stale FOR SELECT TO furrowmark_scheduler USING (true)`,
    ]);
  }

  down(): Promise<never> {
    return forwardOnly(this.name);
  }
}
