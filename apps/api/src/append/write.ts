import { leafHash, rootOf, extend } from '@furrowmark/log';
import type { EntityManager } from 'typeorm';
import { instantOf } from '@furrowmark/domain';
import { arrayText, prepared, together } from '../database/index.ts';
import { frontierOf, type Head } from '../log/index.ts';
import type { NewEntry } from './decide.ts';

/**
 * Entries, head, complete subtrees and mentions in one statement: one message to the database and one plan, prepared once
 * a connection. Hashes and bytes travel as one body each, cut where they are written. The head is moved first, and only
 * from the size it is taken to have; where it has another (somebody else appended meanwhile) nothing is written and the
 * division by zero ends the transaction.
 */
const insertEntries = `
  WITH head AS (
    UPDATE log_head SET size = $3, recorded_at = $4, frontier = $5, root = $6 WHERE operation_id = $1 AND size = $2
    RETURNING size
  ), entry AS (
    INSERT INTO log_entry (operation_id, seq, record_id, type, occurred_at, recorded_at, leaf_hash, bytes)
    SELECT $1, $2::bigint + e.n - 1, e.id, e.type, e.occurred_at, e.recorded_at,
           substring($11::bytea FROM 32 * (e.n::int - 1) + 1 FOR 32), substring($12::bytea FROM e.start FOR e.length)
      FROM head, unnest($7::uuid[], $8::text[], $9::timestamptz[], $10::timestamptz[], $13::int[], $14::int[])
                 WITH ORDINALITY AS e (id, type, occurred_at, recorded_at, start, length, n)
  ), node AS (
    INSERT INTO tree_node (operation_id, level, index, hash)
    SELECT $1, t.level, t.index, substring($17::bytea FROM 32 * (t.n::int - 1) + 1 FOR 32)
      FROM head, unnest($15::smallint[], $16::bigint[]) WITH ORDINALITY AS t (level, index, n)
  ), named AS (
    INSERT INTO mention (operation_id, subject_id, seq)
    SELECT $1, m.id, m.seq FROM head, unnest($18::uuid[], $19::bigint[]) AS m (id, seq)
  )
  SELECT 1 / count(*)::int FROM head`;

/** Inserts the new entries, extends the tree, moves the head; gives the log after it and the statements on their way. */
export function writeEntries(
  manager: EntityManager,
  operationId: string,
  head: Head,
  entries: readonly NewEntry[],
): { readonly head: Head; readonly written: Promise<void> } {
  const leaves = entries.map(({ bytes }) => leafHash(bytes));
  const { frontier, nodes } = extend(frontierOf(head), leaves);
  const complete = nodes.filter(({ level }) => level > 0);
  const named = entries.flatMap(({ record, mentions }) => mentions.map((id) => ({ id, seq: record.seq })));
  const recordedAt = entries.at(-1)?.record.recordedAt ?? null;
  const after: Head = {
    readOnly: head.readOnly,
    size: frontier.size,
    recordedAt: recordedAt === null ? head.recordedAt : Date.parse(recordedAt),
    frontier: Buffer.concat(frontier.edge),
    root: Buffer.from(rootOf(frontier)),
  };
  let end = 1;
  const starts = entries.map(({ bytes }) => (end += bytes.length) - bytes.length);
  const written = together([
    prepared(manager, insertEntries, [
      operationId,
      head.size,
      after.size,
      recordedAt,
      after.frontier,
      after.root,
      arrayText(entries.map(({ record }) => record.id)),
      arrayText(entries.map(({ record }) => record.type)),
      arrayText(entries.map(({ record }) => new Date(instantOf(record.occurredAt)).toISOString())),
      arrayText(entries.map(({ record }) => record.recordedAt)),
      Buffer.concat(leaves),
      Buffer.concat(entries.map(({ bytes }) => bytes)),
      arrayText(starts),
      arrayText(entries.map(({ bytes }) => bytes.length)),
      arrayText(complete.map(({ level }) => level)),
      arrayText(complete.map(({ index }) => index)),
      Buffer.concat(complete.map(({ hash }) => hash)),
      arrayText(named.map(({ id }) => id)),
      arrayText(named.map(({ seq }) => seq)),
    ]),
    ...personalValues(manager, operationId, entries),
  ]);
  return { head: after, written };
}

/** Keeps what opens the seals of these entries, and lets go of what an erasure among them names. */
function personalValues(manager: EntityManager, operationId: string, entries: readonly NewEntry[]): Promise<unknown>[] {
  const opened = entries.flatMap(({ record, openings }) => openings.map((opening) => ({ id: record.id, ...opening })));
  const erased = entries.flatMap(({ erases }) => erases ?? []);
  const statements: Promise<unknown>[] = [];
  if (opened.length > 0) {
    statements.push(
      prepared(
        manager,
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
    statements.push(prepared(manager, forget, [operationId, erased]));
  }
  return statements;
}
