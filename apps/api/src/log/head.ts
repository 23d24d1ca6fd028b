import { emptyFrontier, emptyRoot, nodesForRoot, type Frontier } from '@furrowmark/log';
import type { EntityManager } from 'typeorm';
import { z } from 'zod';
import { prepared, type OperationScope } from '../database/index.ts';

const buffer = z.instanceof(Buffer);
/** `bigint` columns come as text; a log stays far below 2^53 entries. */
export const int8 = z.coerce.number().int();

const rows = z.array(
  z
    .object({ size: int8, recorded_at: z.date().nullable(), frontier: buffer, root: buffer, read_only: z.boolean() })
    .transform((row) => ({
      /** Came in as an archive and was not taken over yet: nothing is appended. */
      readOnly: row.read_only,
      size: row.size,
      /** Milliseconds; of the last entry. */
      recordedAt: row.recorded_at === null ? -Infinity : row.recorded_at.getTime(),
      frontier: row.frontier,
      root: row.root,
    })),
);

/** The state of an operation's log as committed (or, in an append, as locked). */
export type Head = z.output<typeof rows>[number];

const columns = 'size, recorded_at, frontier, root, read_only';
const ofOperation = `SELECT ${columns} FROM log_head WHERE operation_id = $1`;

export async function readHead(manager: EntityManager, operationId: string): Promise<Head | null> {
  return rows.parse(await prepared(manager, ofOperation, [operationId]))[0] ?? null;
}

/** The head as committed now, in a transaction of its own. */
export async function headNow(scope: OperationScope, operationId: string): Promise<Head | null> {
  return rows.parse(await scope.ask(operationId, ofOperation, [operationId]))[0] ?? null;
}

/** Reads the head and holds it until the transaction ends: appends to one log stand in line here. */
export async function lockHead(manager: EntityManager, operationId: string): Promise<Head | null> {
  const found = await prepared(manager, `SELECT ${columns} FROM log_head WHERE operation_id = $1 FOR UPDATE`, [
    operationId,
  ]);
  return rows.parse(found)[0] ?? null;
}

/** The head of a new operation's log. */
export async function createHead(manager: EntityManager, operationId: string): Promise<void> {
  await manager.query('INSERT INTO log_head (operation_id, root) VALUES ($1, $2)', [
    operationId,
    Buffer.from(emptyRoot()),
  ]);
  await manager.query('INSERT INTO checkpoint_due (operation_id) VALUES ($1)', [operationId]);
}

/** The right edge of the tree, as the head keeps it: the hashes one after the other. */
export function frontierOf(head: Head): Frontier {
  if (head.size === 0) return emptyFrontier;
  const edge = nodesForRoot(head.size).map((_, i) => head.frontier.subarray(i * 32, i * 32 + 32));
  return { size: head.size, edge };
}
