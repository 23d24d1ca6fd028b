import { leafHash, rootOf, extend } from '@furrowmark/log';
import type { EntityManager } from 'typeorm';
import { instantOf } from '@furrowmark/domain';
import { prepared } from '../database/index.ts';
import { frontierOf, type Head } from '../log/index.ts';
import type { NewEntry } from './decide.ts';

/** The log after an append. */
export interface Grown {
  readonly size: number;
  readonly root: Buffer;
}

/**
 * Entries, head, complete subtrees and mentions in one statement: one message to the database and one plan, prepared once
 * a connection. The parts touch different tables, so their order does not matter.
 */
const insertEntries = `
  WITH entry AS (
    INSERT INTO log_entry (operation_id, seq, record_id, type, occurred_at, recorded_at, leaf_hash, bytes)
    SELECT $1, * FROM unnest($2::bigint[], $3::uuid[], $4::text[], $5::timestamptz[], $6::timestamptz[],
                             $7::bytea[], $8::bytea[])
  ), node AS (
    INSERT INTO tree_node (operation_id, level, index, hash)
    SELECT $1, * FROM unnest($9::smallint[], $10::bigint[], $11::bytea[])
  ), named AS (
    INSERT INTO mention (operation_id, subject_id, seq)
    SELECT $1, * FROM unnest($12::uuid[], $13::bigint[])
  )
  UPDATE log_head SET size = $14, recorded_at = $15, frontier = $16, root = $17 WHERE operation_id = $1`;

/** Inserts the new entries, extends the tree, moves the head. */
export async function writeEntries(
  manager: EntityManager,
  operationId: string,
  head: Head,
  entries: readonly NewEntry[],
): Promise<Grown> {
  const leaves = entries.map(({ bytes }) => Buffer.from(leafHash(bytes)));
  const { frontier, nodes } = extend(frontierOf(head), leaves);
  const root = Buffer.from(rootOf(frontier));
  const complete = nodes.filter(({ level }) => level > 0);
  const named = entries.flatMap(({ record, mentions }) => mentions.map((id) => ({ id, seq: record.seq })));
  await together([
    prepared(manager, insertEntries, [
      operationId,
      entries.map(({ record }) => record.seq),
      entries.map(({ record }) => record.id),
      entries.map(({ record }) => record.type),
      entries.map(({ record }) => new Date(instantOf(record.occurredAt)).toISOString()),
      entries.map(({ record }) => record.recordedAt),
      leaves,
      entries.map(({ bytes }) => Buffer.from(bytes)),
      complete.map(({ level }) => level),
      complete.map(({ index }) => index),
      complete.map(({ hash }) => Buffer.from(hash)),
      named.map(({ id }) => id),
      named.map(({ seq }) => seq),
      frontier.size,
      entries.at(-1)?.record.recordedAt,
      Buffer.concat(frontier.edge),
      root,
    ]),
    ...personalValues(manager, operationId, entries),
  ]);
  return { size: frontier.size, root };
}

/** Keeps what opens the seals of these entries, and lets go of what an erasure among them names. */
function personalValues(manager: EntityManager, operationId: string, entries: readonly NewEntry[]): Promise<unknown>[] {
  const opened = entries.flatMap(({ record, openings }) => openings.map((opening) => ({ id: record.id, ...opening })));
  const erased = entries.flatMap(({ record }) => (record.type === 'person.erased' ? [record.data.personId] : []));
  const statements: Promise<unknown>[] = [];
  if (opened.length > 0) {
    statements.push(
      manager.query(
        `INSERT INTO opening (operation_id, record_id, pointer, person_id, salt, value)
         SELECT $1, * FROM unnest($2::uuid[], $3::text[], $4::uuid[], $5::bytea[], $6::bytea[])`,
        [
          operationId,
          opened.map(({ id }) => id),
          opened.map(({ pointer }) => pointer),
          opened.map(({ personId }) => personId),
          opened.map(({ salt }) => salt),
          opened.map(({ value }) => value),
        ],
      ),
    );
  }
  if (erased.length > 0) {
    const forget = 'DELETE FROM opening WHERE operation_id = $1 AND person_id = ANY($2::uuid[])';
    statements.push(manager.query(forget, [operationId, erased]));
  }
  return statements;
}

/** Waits for all, then fails with the first failure: no statement is left running behind an ended transaction. */
async function together(statements: readonly Promise<unknown>[]): Promise<void> {
  for (const result of await Promise.allSettled(statements)) if (result.status === 'rejected') throw result.reason;
}
