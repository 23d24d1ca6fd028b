import type { MigrationInterface, QueryRunner } from 'typeorm';
import { forwardOnly, run } from './statements.ts';

/**
 * Of a large append it is noted only from which entry on what follows has not been written (a row of kind `log`); which
 * batches that are is found out when it is settled.
 */
export class Unfollowed1764000000014 implements MigrationInterface {
  readonly name = 'Unfollowed1764000000014';

  up(queryRunner: QueryRunner): Promise<void> {
    return run(queryRunner, [`ALTER TABLE stale ADD COLUMN since bigint CHECK ((kind = 'log') = (since IS NOT NULL))`]);
  }

  down(): Promise<never> {
    return forwardOnly(this.name);
  }
}
