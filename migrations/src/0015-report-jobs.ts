import type { MigrationInterface, QueryRunner } from 'typeorm';
import { forwardOnly, onlyThisOperation, run } from './statements.ts';

/**
 * Reports that are made in the background: who asked for what, how far it is, and which file it became. The queue beside
 * it holds only ids; what was asked and what came of it stays behind the operation's border.
 */
export class ReportJobs1764000000015 implements MigrationInterface {
  readonly name = 'ReportJobs1764000000015';

  up(queryRunner: QueryRunner): Promise<void> {
    return run(queryRunner, [
      `CREATE TABLE report_job (
         operation_id uuid NOT NULL,
         job_id uuid NOT NULL,
         account_id uuid NOT NULL,
         asked jsonb NOT NULL,
         state text NOT NULL CHECK (state IN ('waiting', 'running', 'done', 'failed', 'cancelled')),
         attempt integer NOT NULL DEFAULT 0,
         progress real NOT NULL DEFAULT 0 CHECK (progress >= 0 AND progress <= 1),
         detail text,
         created_at timestamptz(3) NOT NULL,
         started_at timestamptz(3),
         ended_at timestamptz(3),
         expires_at timestamptz(3),
         log_size bigint,
         file_name text,
         byte_length bigint,
         sha256 bytea CHECK (octet_length(sha256) = 32),
         PRIMARY KEY (operation_id, job_id)
       )`,
      `CREATE INDEX report_job_of_account ON report_job (operation_id, account_id, created_at)`,
      ...onlyThisOperation('report_job'),
      `GRANT SELECT, INSERT, UPDATE, DELETE ON report_job TO furrowmark_service`,
    ]);
  }

  down(): Promise<never> {
    return forwardOnly(this.name);
  }
}
