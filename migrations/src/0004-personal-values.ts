import type { MigrationInterface, QueryRunner } from 'typeorm';
import { forwardOnly, onlyThisOperation, run } from './statements.ts';

/**
 * The values behind sealed members: name, initials, title and address of a person. The log holds the seal; this is
 * the only table of the evidence that may lose rows (a person erased after the retention time).
 */
export class PersonalValues1764000000004 implements MigrationInterface {
  readonly name = 'PersonalValues1764000000004';

  up(queryRunner: QueryRunner): Promise<void> {
    return run(queryRunner, [
      `CREATE TABLE opening (
         operation_id uuid NOT NULL,
         record_id uuid NOT NULL,
         pointer text NOT NULL,
         person_id uuid NOT NULL,
         salt bytea NOT NULL CHECK (octet_length(salt) = 32),
         value bytea NOT NULL,
         PRIMARY KEY (operation_id, record_id, pointer)
       )`,
      `CREATE INDEX opening_person ON opening (operation_id, person_id)`,
      ...onlyThisOperation('opening'),
      `GRANT SELECT, INSERT, DELETE ON opening TO furrowmark_service`,
    ]);
  }

  down(): Promise<never> {
    return forwardOnly(this.name);
  }
}
