import type { MigrationInterface, QueryRunner } from 'typeorm';
import { appendOnly, forwardOnly, onlyThisOperation, run } from './statements.ts';

/**
 * Which reviews were signed by someone who proved again who they are, and over which state of the log; and which
 * documents are kept as files beside the log.
 */
export class SignaturesAndDocuments1764000000009 implements MigrationInterface {
  readonly name = 'SignaturesAndDocuments1764000000009';

  up(queryRunner: QueryRunner): Promise<void> {
    const tables = ['signature', 'document'];
    return run(queryRunner, [
      `CREATE TABLE signature (
         operation_id uuid NOT NULL,
         record_id uuid NOT NULL,
         account_id uuid NOT NULL,
         how text NOT NULL CHECK (how IN ('password', 'pin')),
         size bigint NOT NULL CHECK (size >= 0),
         root bytea NOT NULL CHECK (octet_length(root) = 32),
         signed_at timestamptz(3) NOT NULL,
         PRIMARY KEY (operation_id, record_id)
       )`,
      `CREATE TABLE document (
         operation_id uuid NOT NULL,
         sha256 bytea NOT NULL CHECK (octet_length(sha256) = 32),
         byte_length integer NOT NULL CHECK (byte_length > 0),
         media_type text NOT NULL,
         stored_at timestamptz(3) NOT NULL,
         stored_by uuid NOT NULL,
         PRIMARY KEY (operation_id, sha256)
       )`,
      ...tables.flatMap(appendOnly),
      ...tables.flatMap(onlyThisOperation),
      `GRANT SELECT, INSERT ON ${tables.join(', ')} TO furrowmark_service`,
      `GRANT SELECT ON ${tables.join(', ')} TO furrowmark_reader`,
    ]);
  }

  down(): Promise<never> {
    return forwardOnly(this.name);
  }
}
