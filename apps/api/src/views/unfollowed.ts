import type { Season } from '@furrowmark/domain';
import type { EntityManager } from 'typeorm';
import { z } from 'zod';
import { prepared } from '../database/index.ts';
import { int8 } from '../log/index.ts';

const rows = z.array(z.object({ since: int8 }));

/** Notes that nothing of what follows from the entries `from` up to `to` (exclusive) has been written yet. */
export async function markUnfollowed(
  manager: EntityManager,
  operationId: string,
  from: number,
  to: number,
): Promise<void> {
  // The first of several stays where the note begins; the row's lock keeps whoever takes the note away from missing this.
  await prepared(
    manager,
    `INSERT INTO stale (operation_id, kind, id, seq, since) VALUES ($1, 'log', $1, $2, $3)
     ON CONFLICT (operation_id, kind, id) DO UPDATE SET seq = EXCLUDED.seq`,
    [operationId, to - 1, from],
  );
}

/** The first entry from which on nothing was followed; null where everything was. */
export async function unfollowedFrom(manager: EntityManager, operationId: string): Promise<number | null> {
  const found = await prepared(
    manager,
    `SELECT since FROM stale WHERE operation_id = $1 AND kind = 'log' AND id = $1`,
    [operationId],
  );
  return rows.parse(found)[0]?.since ?? null;
}

/** In place of that note: these batches, of which what is kept does not hold any more in the season as it is. */
export async function markStale(
  manager: EntityManager,
  operationId: string,
  { size }: Pick<Season, 'size'>,
  batchIds: readonly string[],
): Promise<void> {
  await prepared(
    manager,
    `INSERT INTO stale SELECT $1, 'batch', id, $3 FROM unnest($2::uuid[]) AS id
     ON CONFLICT (operation_id, kind, id) DO UPDATE SET seq = EXCLUDED.seq`,
    [operationId, batchIds, size - 1],
  );
}

/** Everything in a log of this size has been followed; what was appended since stays noted. */
export async function forgetUnfollowed(manager: EntityManager, operationId: string, size: number): Promise<void> {
  await prepared(
    manager,
    `WITH later AS (
       UPDATE stale SET since = $2 WHERE operation_id = $1 AND kind = 'log' AND id = $1 AND seq >= $2
     )
     DELETE FROM stale WHERE operation_id = $1 AND kind = 'log' AND id = $1 AND seq < $2`,
    [operationId, size],
  );
}
