import type { MigrationInterface, QueryRunner } from 'typeorm';
import { forwardOnly, onlyThisOperation, run } from './statements.ts';

/**
 * What is to be done by when, and whether its time was announced; and the outcomes as the program last judged them, for an
 * upgrade to compare with. Both can be computed again from the log, all but the announcing.
 */
export class Deadlines1764000000012 implements MigrationInterface {
  readonly name = 'Deadlines1764000000012';

  up(queryRunner: QueryRunner): Promise<void> {
    const tables = ['deadline', 'outcomes_kept'];
    return run(queryRunner, [
      `CREATE TABLE deadline (
         operation_id uuid NOT NULL,
         finding_id uuid NOT NULL,
         due_at timestamptz(3) NOT NULL,
         rule_id text NOT NULL,
         subject_kind text NOT NULL,
         subject_id text NOT NULL,
         subject_code text NOT NULL,
         what text NOT NULL,
         standing boolean NOT NULL,
         alerted_at timestamptz(3),
         PRIMARY KEY (operation_id, finding_id, due_at)
       )`,
      `CREATE INDEX deadline_waiting ON deadline (operation_id, due_at) WHERE standing AND alerted_at IS NULL`,
      `CREATE TABLE outcomes_kept (
         operation_id uuid PRIMARY KEY,
         size bigint NOT NULL,
         judged_at timestamptz(3) NOT NULL,
         outcomes jsonb NOT NULL
       )`,
      ...tables.flatMap(onlyThisOperation),
      `GRANT SELECT, INSERT, UPDATE, DELETE ON ${tables.join(', ')} TO furrowmark_service`,
    ]);
  }

  down(): Promise<never> {
    return forwardOnly(this.name);
  }
}
