import { leafHash, rootOf, extend } from '@furrowmark/log';
import type { EntityManager } from 'typeorm';
import { instantOf } from '@furrowmark/domain';
import { frontierOf, type Head } from '../log/index.ts';
import type { NewEntry } from './decide.ts';

/** The log after an append. */
export interface Grown {
  readonly size: number;
  readonly root: Buffer;
}

/** Inserts the new entries, extends the tree, moves the head. The statements are sent together: one round trip. */
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
  const opened = entries.flatMap(({ record, openings }) => openings.map((opening) => ({ id: record.id, ...opening })));
  const erased = entries.flatMap(({ record }) => (record.type === 'person.erased' ? [record.data.personId] : []));

  await together([
    manager.query(
      `INSERT INTO log_entry (operation_id, seq, record_id, type, occurred_at, recorded_at, leaf_hash, bytes)
       SELECT $1, * FROM unnest($2::bigint[], $3::uuid[], $4::text[], $5::timestamptz[], $6::timestamptz[], $7::bytea[], $8::bytea[])`,
      [
        operationId,
        entries.map(({ record }) => record.seq),
        entries.map(({ record }) => record.id),
        entries.map(({ record }) => record.type),
        entries.map(({ record }) => new Date(instantOf(record.occurredAt)).toISOString()),
        entries.map(({ record }) => record.recordedAt),
        leaves,
        entries.map(({ bytes }) => Buffer.from(bytes)),
      ],
    ),
    manager.query(`UPDATE log_head SET size = $2, recorded_at = $3, frontier = $4, root = $5 WHERE operation_id = $1`, [
      operationId,
      frontier.size,
      entries.at(-1)?.record.recordedAt,
      Buffer.concat(frontier.edge),
      root,
    ]),
    complete.length > 0 &&
      manager.query(
        `INSERT INTO tree_node (operation_id, level, index, hash)
         SELECT $1, * FROM unnest($2::smallint[], $3::bigint[], $4::bytea[])`,
        [
          operationId,
          complete.map(({ level }) => level),
          complete.map(({ index }) => index),
          complete.map(({ hash }) => Buffer.from(hash)),
        ],
      ),
    named.length > 0 &&
      manager.query(`INSERT INTO mention SELECT $1, * FROM unnest($2::uuid[], $3::bigint[])`, [
        operationId,
        named.map(({ id }) => id),
        named.map(({ seq }) => seq),
      ]),
    opened.length > 0 &&
      manager.query(
        `INSERT INTO opening SELECT $1, * FROM unnest($2::uuid[], $3::text[], $4::uuid[], $5::bytea[], $6::bytea[])`,
        [
          operationId,
          opened.map(({ id }) => id),
          opened.map(({ pointer }) => pointer),
          opened.map(({ personId }) => personId),
          opened.map(({ salt }) => salt),
          opened.map(({ value }) => value),
        ],
      ),
    erased.length > 0 &&
      manager.query(`DELETE FROM opening WHERE operation_id = $1 AND person_id = ANY($2::uuid[])`, [
        operationId,
        erased,
      ]),
  ]);
  return { size: frontier.size, root };
}

/** Waits for all, then fails with the first failure: no statement is left running behind an ended transaction. */
async function together(statements: readonly (Promise<unknown> | false)[]): Promise<void> {
  for (const result of await Promise.allSettled(statements)) if (result.status === 'rejected') throw result.reason;
}
