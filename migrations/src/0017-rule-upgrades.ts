import type { MigrationInterface, QueryRunner } from 'typeorm';
import { appendOnly, forwardOnly, onlyThisOperation, run } from './statements.ts';

/**
 * What a program with other rules judges otherwise than the one before it, written down once, when it first starts; and
 * with the outcomes that are kept for that, the revision of every rule that they were judged by.
 */
export class RuleUpgrades1764000000017 implements MigrationInterface {
  readonly name = 'RuleUpgrades1764000000017';

  up(queryRunner: QueryRunner): Promise<void> {
    return run(queryRunner, [
      // Empty: kept by a program that did not write them down; then the outcomes have those of rules that said anything.
      `ALTER TABLE outcomes_kept ADD COLUMN revisions jsonb NOT NULL DEFAULT '{}'`,
      `CREATE TABLE rule_upgrade (
         operation_id uuid NOT NULL,
         found_at timestamptz(3) NOT NULL,
         size bigint NOT NULL,
         judged_at timestamptz(3) NOT NULL,
         outcomes integer NOT NULL,
         revisions jsonb NOT NULL,
         differences jsonb NOT NULL,
         PRIMARY KEY (operation_id, found_at)
       )`,
      ...onlyThisOperation('rule_upgrade'),
      ...appendOnly('rule_upgrade'),
      `GRANT SELECT, INSERT ON rule_upgrade TO furrowmark_service`,
    ]);
  }

  down(): Promise<never> {
    return forwardOnly(this.name);
  }
}
