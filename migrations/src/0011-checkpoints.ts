import type { MigrationInterface, QueryRunner } from 'typeorm';
import { appendOnly, forwardOnly, onlyThisOperation, run } from './statements.ts';

/**
 * Signed checkpoints that were handed out or prove a change of key; who outside gets one and when the next is due; and
 * logs that came in as an archive, read-only until they are taken over.
 */
export class Checkpoints1764000000011 implements MigrationInterface {
  readonly name = 'Checkpoints1764000000011';

  up(queryRunner: QueryRunner): Promise<void> {
    return run(queryRunner, [
      `CREATE TABLE checkpoint (
         operation_id uuid NOT NULL,
         size bigint NOT NULL CHECK (size >= 0),
         key_id text NOT NULL CHECK (key_id ~ '^[0-9a-f]{8}$'),
         note text NOT NULL,
         why text NOT NULL CHECK (why IN ('schedule', 'handing-over', 'imported')),
         kept_at timestamptz(3) NOT NULL,
         PRIMARY KEY (operation_id, size, key_id)
       )`,
      ...appendOnly('checkpoint'),
      `CREATE TABLE witness (
         operation_id uuid NOT NULL,
         witness_id uuid NOT NULL,
         address text NOT NULL,
         every_days integer NOT NULL CHECK (every_days BETWEEN 1 AND 366),
         added_by uuid NOT NULL,
         added_at timestamptz(3) NOT NULL,
         ended_at timestamptz(3),
         next_at timestamptz(3) NOT NULL,
         sent_at timestamptz(3),
         sent_size bigint,
         failure text,
         PRIMARY KEY (operation_id, witness_id)
       )`,
      `CREATE TABLE imported (
         operation_id uuid PRIMARY KEY,
         size bigint NOT NULL CHECK (size > 0),
         root bytea NOT NULL CHECK (octet_length(root) = 32),
         key text,
         archive_sha256 text NOT NULL CHECK (archive_sha256 ~ '^[0-9a-f]{64}$'),
         imported_by uuid NOT NULL,
         imported_at timestamptz(3) NOT NULL
       )`,
      ...appendOnly('imported'),
      // Only when, not to whom: the clock looks at all operations, and no address crosses their borders.
      `CREATE TABLE checkpoint_due (
         operation_id uuid PRIMARY KEY,
         due_at timestamptz(3) NOT NULL DEFAULT '-infinity'
       )`,
      ...['checkpoint', 'imported', 'witness', 'checkpoint_due'].flatMap(onlyThisOperation),
      `CREATE POLICY service_sees_when ON checkpoint_due FOR SELECT TO furrowmark_service USING (true)`,
      `ALTER TABLE log_head ADD COLUMN read_only boolean NOT NULL DEFAULT false`,
      // The owner, too, sees only what row-level security shows; here it must see every log.
      `ALTER TABLE log_head NO FORCE ROW LEVEL SECURITY`,
      `ALTER TABLE checkpoint_due NO FORCE ROW LEVEL SECURITY`,
      `INSERT INTO checkpoint_due (operation_id) SELECT operation_id FROM log_head`,
      `ALTER TABLE checkpoint_due FORCE ROW LEVEL SECURITY`,
      `ALTER TABLE log_head FORCE ROW LEVEL SECURITY`,
      `GRANT SELECT, INSERT ON checkpoint, imported, witness, checkpoint_due TO furrowmark_service`,
      `GRANT UPDATE (ended_at, next_at, sent_at, sent_size, failure) ON witness TO furrowmark_service`,
      `GRANT UPDATE (due_at) ON checkpoint_due TO furrowmark_service`,
      `GRANT UPDATE (read_only) ON log_head TO furrowmark_service`,
      `GRANT SELECT ON checkpoint TO furrowmark_reader`,
    ]);
  }

  down(): Promise<never> {
    return forwardOnly(this.name);
  }
}
