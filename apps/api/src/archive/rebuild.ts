import { isDeepStrictEqual } from 'node:util';
import { Injectable } from '@nestjs/common';
import { openSeason, UnreadableEntry, type OpenSeason } from '@furrowmark/domain';
import type { EntityManager } from 'typeorm';
import { z } from 'zod';
import { OperationScope } from '../database/index.ts';
import { readHead } from '../log/index.ts';
import { BatchList, readRecords, writeBatches } from '../views/index.ts';
import { indexFaults, mentionsOf, type IndexFault } from './indexes.ts';

/** What a comparison of everything kept beside the log with the log gave. */
export interface Rebuilt {
  readonly size: number;
  readonly batches: number;
  /** A sentence for each batch whose facts or edges were kept otherwise. */
  readonly different: readonly string[];
  readonly indexes: readonly IndexFault[];
}

const rows = z.array(z.looseObject({ batch_id: z.string() }));
const entries = z.array(z.object({ seq: z.coerce.number(), bytes: z.instanceof(Buffer) }));

/** Computes anew from the hashed bytes what is kept beside them: columns, mentions, tree, facts of batches, edges. */
@Injectable()
export class Rebuild {
  constructor(
    private readonly scope: OperationScope,
    private readonly batches: BatchList,
  ) {}

  /** Compares; with `mend` puts mentions, facts and edges in place. The log, its columns and its tree are never changed. */
  async run(operationId: string, { mend }: { readonly mend: boolean }): Promise<Rebuilt> {
    const unsettled = await this.batches.settle(operationId).then(
      () => null,
      (error: unknown) => error,
    );
    return this.scope.run(operationId, async (manager) => {
      const indexes = await indexFaults(manager, operationId);
      const size = (await readHead(manager, operationId))?.size ?? 0;
      // What cannot be read cannot be folded: the fault is in the log, and it has been named.
      if (unsettled !== null && indexes.length > 0) return { size, batches: 0, different: [], indexes };
      if (unsettled !== null) throw unsettled;
      const season = await readable(manager, operationId, size, indexes.length > 0);
      if (typeof season === 'string') return { size, batches: 0, different: [season], indexes };
      if (mend && indexes.some(({ mendable }) => mendable)) await writeMentions(manager, operationId);
      return { size, indexes, ...(await compareBatches(manager, operationId, season, mend)) };
    });
  }
}

/** The season of a log; a sentence where its entries, or the values behind its seals, are altered past reading. */
async function readable(
  manager: EntityManager,
  operationId: string,
  size: number,
  altered: boolean,
): Promise<OpenSeason | string> {
  const records = await readRecords(manager, operationId, 0, size).catch((error: unknown) => {
    if (error instanceof UnreadableEntry || error instanceof z.ZodError || error instanceof SyntaxError) return null;
    throw error;
  });
  if (records === null) return 'an entry, or a value behind a seal, is no record any more: no facts can be computed';
  try {
    return openSeason(records);
  } catch (error) {
    // Folding takes records as the log took them, so what was put there otherwise may do anything. It has been named.
    if (altered) return 'the entries are not as they were recorded: no facts can be computed';
    throw error;
  }
}

async function compareBatches(manager: EntityManager, operationId: string, season: OpenSeason, mend: boolean) {
  const before = await kept(manager, operationId);
  // Compared in the form in which it is kept; without mending the writing is undone.
  await manager.query('SAVEPOINT comparing');
  const ids = new Set([...season.batches().map(({ id }) => String(id)), ...before.keys()]);
  await manager.query('DELETE FROM trace_edge WHERE operation_id = $1', [operationId]);
  await manager.query('DELETE FROM batch_facts WHERE operation_id = $1', [operationId]);
  await writeBatches(manager, operationId, season, [...ids]);
  const after = await kept(manager, operationId);
  if (!mend) await manager.query('ROLLBACK TO SAVEPOINT comparing');
  const became = (id: string): string =>
    !before.has(id) ? 'was missing' : after.has(id) ? 'was kept otherwise' : 'is in no record';
  const different = [...ids]
    .filter((id) => !isDeepStrictEqual(before.get(id), after.get(id)))
    .map((id) => `batch ${id}: ${became(id)}`);
  return { batches: after.size, different };
}

async function writeMentions(manager: EntityManager, operationId: string): Promise<void> {
  await manager.query('DELETE FROM mention WHERE operation_id = $1', [operationId]);
  for (let from = -1; ;) {
    const page = entries.parse(
      await manager.query(
        'SELECT seq, bytes FROM log_entry WHERE operation_id = $1 AND seq > $2 ORDER BY seq LIMIT 2000',
        [operationId, from],
      ),
    );
    const named = page.flatMap(({ seq, bytes }) =>
      [...(mentionsOf(JSON.parse(bytes.toString('utf8'))) ?? [])].map((id) => ({ id, seq })),
    );
    await manager.query('INSERT INTO mention SELECT $1, * FROM unnest($2::uuid[], $3::bigint[])', [
      operationId,
      named.map(({ id }) => id),
      named.map(({ seq }) => seq),
    ]);
    const last = page.at(-1);
    if (last === undefined) return;
    from = last.seq;
  }
}

/** What is kept of each batch, the log size it was computed at left out. */
async function kept(manager: EntityManager, operationId: string): Promise<ReadonlyMap<string, object>> {
  const found = rows.parse(
    await manager.query(
      `SELECT b.batch_id, b.code, b.kind, b.phase, b.from_at, b.to_at, b.facts,
              (SELECT jsonb_agg(to_jsonb(e) ORDER BY e.position) FROM trace_edge e
                WHERE e.operation_id = b.operation_id AND e.batch_id = b.batch_id) AS edges
         FROM batch_facts b WHERE b.operation_id = $1`,
      [operationId],
    ),
  );
  return new Map(found.map((row) => [row.batch_id, row]));
}
