import type { MigrationInterface, QueryRunner } from 'typeorm';
import { forwardOnly, onlyThisOperation, run } from './statements.ts';

/** Refuses every change of what is there, for the owner as well. */
const appendOnly = (table: string): readonly string[] => [
  `CREATE TRIGGER append_only BEFORE UPDATE OR DELETE OR TRUNCATE ON ${table}
     FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()`,
  `ALTER TABLE ${table} ENABLE ALWAYS TRIGGER append_only`,
];

/**
 * The log of each operation: the canonical bytes as they were hashed, the leaf hashes, the complete subtrees above
 * them, and a head row whose lock puts appends in line. Columns beside `bytes` are indexes, rebuilt from the bytes.
 */
export class Log1764000000003 implements MigrationInterface {
  readonly name = 'Log1764000000003';

  up(queryRunner: QueryRunner): Promise<void> {
    return run(queryRunner, [
      `CREATE FUNCTION refuse_change() RETURNS trigger LANGUAGE plpgsql AS $$
       BEGIN
         RAISE EXCEPTION 'append-only: % on % is refused', TG_OP, TG_TABLE_NAME USING ERRCODE = 'insufficient_privilege';
       END $$`,
      `CREATE TABLE log_entry (
         operation_id uuid NOT NULL,
         seq bigint NOT NULL CHECK (seq >= 0),
         record_id uuid NOT NULL,
         type text NOT NULL,
         occurred_at timestamptz NOT NULL,
         recorded_at timestamptz(3) NOT NULL,
         leaf_hash bytea NOT NULL CHECK (octet_length(leaf_hash) = 32),
         bytes bytea NOT NULL,
         PRIMARY KEY (operation_id, seq),
         CONSTRAINT log_entry_record UNIQUE (operation_id, record_id)
       )`,
      `CREATE INDEX log_entry_type ON log_entry (operation_id, type, seq)`,
      ...appendOnly('log_entry'),
      ...onlyThisOperation('log_entry'),
      `CREATE TABLE tree_node (
         operation_id uuid NOT NULL,
         level smallint NOT NULL CHECK (level BETWEEN 1 AND 62),
         index bigint NOT NULL CHECK (index >= 0),
         hash bytea NOT NULL CHECK (octet_length(hash) = 32),
         PRIMARY KEY (operation_id, level, index)
       )`,
      ...appendOnly('tree_node'),
      ...onlyThisOperation('tree_node'),
      `CREATE TABLE log_head (
         operation_id uuid PRIMARY KEY,
         size bigint NOT NULL DEFAULT 0 CHECK (size >= 0),
         recorded_at timestamptz(3),
         frontier bytea NOT NULL DEFAULT '' CHECK (octet_length(frontier) % 32 = 0),
         root bytea NOT NULL CHECK (octet_length(root) = 32)
       )`,
      `CREATE FUNCTION refuse_shrinking() RETURNS trigger LANGUAGE plpgsql AS $$
       BEGIN
         IF NEW.operation_id <> OLD.operation_id OR NEW.size < OLD.size OR NEW.recorded_at < OLD.recorded_at THEN
           RAISE EXCEPTION 'append-only: a log never gets smaller' USING ERRCODE = 'insufficient_privilege';
         END IF;
         RETURN NEW;
       END $$`,
      `CREATE TRIGGER grows_only BEFORE UPDATE ON log_head FOR EACH ROW EXECUTE FUNCTION refuse_shrinking()`,
      `CREATE TRIGGER append_only BEFORE DELETE OR TRUNCATE ON log_head
         FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()`,
      ...onlyThisOperation('log_head'),
      `GRANT SELECT, INSERT ON log_entry, tree_node, log_head TO furrowmark_service`,
      `GRANT UPDATE (size, recorded_at, frontier, root) ON log_head TO furrowmark_service`,
      `GRANT SELECT ON log_entry, tree_node, log_head TO furrowmark_reader`,
    ]);
  }

  down(): Promise<never> {
    return forwardOnly(this.name);
  }
}
