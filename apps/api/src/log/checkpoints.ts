import type { EntityManager } from 'typeorm';
import { z } from 'zod';
import { memberOf } from '@furrowmark/log';
import { int8 } from './head.ts';

const kept = z.array(
  z.object({ size: int8, key_id: z.string(), note: z.string(), why: z.string() }).transform((row) => ({
    size: row.size,
    keyId: row.key_id,
    note: row.note,
    why: row.why,
  })),
);

/** A signed checkpoint that is kept beside the log. */
export type KeptCheckpoint = z.output<typeof kept>[number];

export async function keptCheckpoints(manager: EntityManager, operationId: string): Promise<KeptCheckpoint[]> {
  return kept.parse(
    await manager.query(
      'SELECT size, key_id, note, why FROM checkpoint WHERE operation_id = $1 ORDER BY size, kept_at',
      [operationId],
    ),
  );
}

export async function keepCheckpoint(
  manager: EntityManager,
  operationId: string,
  { size, keyId, note, why }: KeptCheckpoint,
  now: number,
): Promise<void> {
  await manager.query('INSERT INTO checkpoint VALUES ($1, $2, $3, $4, $5, $6) ON CONFLICT DO NOTHING', [
    ...[operationId, size, keyId, note, why, new Date(now)],
  ]);
}

/** An entry from which on the log is signed with another key. */
export interface KeyEntry {
  readonly seq: number;
  readonly type: string;
  /** Verifier key lines. */
  readonly key: string;
  readonly previousKey: string | null;
}

const entries = z.array(z.object({ bytes: z.instanceof(Buffer), seq: int8, type: z.string() }));

/** The entries that name the log's next key, in order; read from their bytes, found by an index. */
export async function keyEntries(manager: EntityManager, operationId: string): Promise<KeyEntry[]> {
  const found = entries.parse(
    await manager.query(
      `SELECT bytes, seq, type FROM log_entry
        WHERE operation_id = $1 AND type IN ('key.replaced', 'log.restored', 'import.made') ORDER BY seq`,
      [operationId],
    ),
  );
  return found.flatMap(({ bytes, seq, type }) => {
    const data = memberOf(JSON.parse(bytes.toString('utf8')), 'data');
    const [key, previousKey] = [memberOf(data, 'key'), memberOf(data, 'previousKey')];
    if (typeof key !== 'string') return [];
    return [{ seq, type, key, previousKey: typeof previousKey === 'string' ? previousKey : null }];
  });
}
