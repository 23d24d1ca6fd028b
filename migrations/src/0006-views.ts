import type { MigrationInterface, QueryRunner } from 'typeorm';
import { forwardOnly, onlyThisOperation, run } from './statements.ts';

/** What follows from the records and is kept for reading: facts of batches, edges of the trace, and what is stale. */
export class Views1764000000006 implements MigrationInterface {
  readonly name = 'Views1764000000006';

  up(queryRunner: QueryRunner): Promise<void> {
    const tables = ['batch_facts', 'trace_edge', 'stale'];
    return run(queryRunner, [
      `CREATE TABLE batch_facts (
         operation_id uuid NOT NULL,
         batch_id uuid NOT NULL,
         as_of_seq bigint NOT NULL,
         code text NOT NULL,
         kind text NOT NULL,
         phase text NOT NULL,
         from_at timestamptz,
         to_at timestamptz,
         facts jsonb NOT NULL,
         PRIMARY KEY (operation_id, batch_id)
       )`,
      `CREATE INDEX batch_facts_time ON batch_facts (operation_id, from_at, batch_id)`,
      `CREATE TABLE trace_edge (
         operation_id uuid NOT NULL,
         batch_id uuid NOT NULL,
         position integer NOT NULL,
         from_kind text NOT NULL,
         from_id text NOT NULL,
         to_kind text NOT NULL,
         to_id text NOT NULL,
         record_id uuid NOT NULL,
         quantity jsonb,
         PRIMARY KEY (operation_id, batch_id, position)
       )`,
      `CREATE INDEX trace_edge_from ON trace_edge (operation_id, from_id)`,
      `CREATE INDEX trace_edge_to ON trace_edge (operation_id, to_id)`,
      `CREATE TABLE stale (
         operation_id uuid NOT NULL,
         kind text NOT NULL,
         id uuid NOT NULL,
         seq bigint NOT NULL,
         PRIMARY KEY (operation_id, kind, id)
       )`,
      ...tables.flatMap(onlyThisOperation),
      `GRANT SELECT, INSERT, UPDATE, DELETE ON ${tables.join(', ')} TO furrowmark_service`,
      `GRANT SELECT ON ${tables.join(', ')} TO furrowmark_reader`,
    ]);
  }

  down(): Promise<never> {
    return forwardOnly(this.name);
  }
}
