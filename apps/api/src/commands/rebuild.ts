import { isDeepStrictEqual } from 'node:util';
import { openSeason } from '@furrowmark/domain';
import type { EntityManager } from 'typeorm';
import { z } from 'zod';
import { OperationScope } from '../database/index.ts';
import { readHead } from '../log/index.ts';
import { BatchList, readRecords, writeBatches } from '../views/index.ts';
import { Refusal, type Command } from './command.ts';
import { operationIdOf, withOperation } from './operation-here.ts';
import { options } from './options.ts';

export const rebuild: Command = {
  verb: 'rebuild',
  usage: '--operation ID',
  purpose:
    'Computes anew from the log what is kept beside it (facts of batches, edges of the trace), puts it in place and says what differed. A difference is a defect of the program; then the exit code is 1.',
  async run(args) {
    const { given, rest } = options(args, ['operation']);
    if (rest.length > 0) throw new Refusal(`"${rest.join(' ')}" is not understood.`);
    const operationId = operationIdOf(given.operation);
    const { batches, different, size } = await withOperation(operationId, async ({ context }) => {
      await context.get(BatchList).settle(operationId);
      return context.get(OperationScope).run(operationId, (manager) => rebuildIn(manager, operationId));
    });
    for (const line of different) console.error(line);
    console.log(`${batches} batches computed anew from ${size} entries, ${different.length} differed`);
    return different.length === 0 ? 0 : 1;
  },
};

/** Folds the whole log afresh, writes what follows, and compares with what was there. */
async function rebuildIn(manager: EntityManager, operationId: string) {
  const head = await readHead(manager, operationId);
  const size = head?.size ?? 0;
  const season = openSeason(await readRecords(manager, operationId, 0, size));
  const before = await kept(manager, operationId);
  const ids = new Set([...season.batches().map(({ id }) => String(id)), ...before.keys()]);
  await writeBatches(manager, operationId, season, [...ids]);
  const after = await kept(manager, operationId);
  const different = [...ids]
    .filter((id) => !isDeepStrictEqual(before.get(id), after.get(id)))
    .map((id) => `batch ${id}: ${before.has(id) ? 'was kept otherwise' : 'was missing'}`);
  return { batches: after.size, different, size };
}

const rows = z.array(z.looseObject({ batch_id: z.string() }));

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
