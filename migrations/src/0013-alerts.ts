import type { MigrationInterface, QueryRunner } from 'typeorm';
import { forwardOnly, onlyThisOperation, run } from './statements.ts';

/**
 * Who wants to be told by e-mail what is due or broke, and what waits to be told or was. Addresses stand beside the log,
 * never in it, and go when their person says so.
 */
export class Alerts1764000000013 implements MigrationInterface {
  readonly name = 'Alerts1764000000013';

  up(queryRunner: QueryRunner): Promise<void> {
    const tables = ['alert_choice', 'alert', 'alert_due'];
    return run(queryRunner, [
      `CREATE TABLE alert_choice (
         operation_id uuid NOT NULL,
         account_id uuid NOT NULL REFERENCES account,
         address text NOT NULL,
         tells text[] NOT NULL,
         quiet_from text CHECK (quiet_from ~ '^[0-2][0-9]:[0-5][0-9]$'),
         quiet_until text CHECK (quiet_until ~ '^[0-2][0-9]:[0-5][0-9]$'),
         language text NOT NULL CHECK (language IN ('en', 'es')),
         since timestamptz(3) NOT NULL,
         failure text,
         PRIMARY KEY (operation_id, account_id)
       )`,
      `CREATE TABLE alert (
         operation_id uuid NOT NULL,
         account_id uuid NOT NULL,
         kind text NOT NULL CHECK (kind IN ('due', 'broken')),
         finding_id uuid NOT NULL,
         due_at timestamptz(3) NOT NULL,
         rule_id text NOT NULL,
         subject_code text NOT NULL,
         what text NOT NULL,
         put_at timestamptz(3) NOT NULL,
         letter_id uuid,
         sent_at timestamptz(3),
         PRIMARY KEY (operation_id, account_id, kind, finding_id, due_at)
       )`,
      `CREATE INDEX alert_waiting ON alert (operation_id, account_id) WHERE sent_at IS NULL`,
      // Only when, not to whom: the clock looks at all operations, and no address crosses their borders.
      `CREATE TABLE alert_due (
         operation_id uuid PRIMARY KEY,
         due_at timestamptz(3) NOT NULL
       )`,
      ...tables.flatMap(onlyThisOperation),
      `CREATE POLICY service_sees_when ON alert_due FOR SELECT TO furrowmark_service USING (true)`,
      `GRANT SELECT, INSERT, UPDATE, DELETE ON ${tables.join(', ')} TO furrowmark_service`,
    ]);
  }

  down(): Promise<never> {
    return forwardOnly(this.name);
  }
}
