import type { MigrationInterface, QueryRunner } from 'typeorm';
import { forwardOnly, onlyThisOperation, run } from './statements.ts';

/** Which records name an id: what a batch, a lot or a field is looked up by. */
export class Mentions1764000000005 implements MigrationInterface {
  readonly name = 'Mentions1764000000005';

  up(queryRunner: QueryRunner): Promise<void> {
    return run(queryRunner, [
      `CREATE TABLE mention (
         operation_id uuid NOT NULL,
         subject_id uuid NOT NULL,
         seq bigint NOT NULL,
         PRIMARY KEY (operation_id, subject_id, seq)
       )`,
      ...onlyThisOperation('mention'),
      `GRANT SELECT, INSERT, DELETE ON mention TO furrowmark_service`,
      `GRANT SELECT ON mention TO furrowmark_reader`,
    ]);
  }

  down(): Promise<never> {
    return forwardOnly(this.name);
  }
}
