import {
  batchesNamed,
  batchView,
  edgesOf,
  utcText,
  type Batch,
  type LogRecord,
  type Season,
  type TraceEdge,
} from '@furrowmark/domain';
import type { EntityManager } from 'typeorm';

/** Batches whose facts are written with the records that changed them; of further ones it is noted that they are stale. */
const mostAtOnce = 40;

/**
 * Writes what follows from new records: facts and edges of the batches they name, the operation's name; of other batches
 * that they may affect, that what is kept of them is stale. `changed` are all batches whose facts may have changed.
 */
export async function project(
  manager: EntityManager,
  operationId: string,
  season: Season,
  records: readonly LogRecord[],
  changed: ReadonlySet<string>,
): Promise<void> {
  const named = new Set(records.flatMap((record) => batchesNamed(record)));
  const ordered = [...changed].sort((a, b) => Number(named.has(b)) - Number(named.has(a)));
  const now = ordered.slice(0, mostAtOnce).filter((id) => named.has(id));
  const later = ordered.filter((id) => !now.includes(id));
  const size = season.size;
  await Promise.all([
    writeBatches(manager, operationId, season, now),
    later.length > 0 &&
      manager.query(
        `INSERT INTO stale SELECT $1, 'batch', id, $3 FROM unnest($2::uuid[]) AS id
         ON CONFLICT (operation_id, kind, id) DO UPDATE SET seq = EXCLUDED.seq`,
        [operationId, later, size - 1],
      ),
    records.some(({ type }) => type.startsWith('operation.') || type.startsWith('record.')) &&
      manager.query('UPDATE operation SET name = $2, time_zone = $3 WHERE operation_id = $1', [
        operationId,
        nameOf(season),
        season.timeZone,
      ]),
  ]);
}

/** Writes facts and edges of batches as the season has them. A newer state, written meanwhile, stays. */
export async function writeBatches(
  manager: EntityManager,
  operationId: string,
  season: Season,
  ids: readonly string[],
): Promise<void> {
  if (ids.length === 0) return;
  const batches = ids.map((id) => season.batch(id)).filter((batch) => batch !== undefined);
  const rows = batches.map((batch) => ({ batch, ...boundsOf(batch), facts: JSON.stringify(batchView(batch)) }));
  const edges = batches.flatMap((batch) =>
    edgesOf(season, batch.id).map((edge, position) => ({ batchId: batch.id, position, ...edge })),
  );
  await Promise.all([
    manager.query(
      `INSERT INTO batch_facts (operation_id, batch_id, as_of_seq, code, kind, phase, from_at, to_at, facts)
       SELECT $1, id, $2, code, kind, phase, from_at, to_at, facts
         FROM unnest($3::uuid[], $4::text[], $5::text[], $6::text[], $7::timestamptz[], $8::timestamptz[], $9::jsonb[])
              AS b (id, code, kind, phase, from_at, to_at, facts)
       ON CONFLICT (operation_id, batch_id) DO UPDATE
          SET as_of_seq = EXCLUDED.as_of_seq, code = EXCLUDED.code, kind = EXCLUDED.kind, phase = EXCLUDED.phase,
              from_at = EXCLUDED.from_at, to_at = EXCLUDED.to_at, facts = EXCLUDED.facts
        WHERE batch_facts.as_of_seq <= EXCLUDED.as_of_seq`,
      [
        operationId,
        season.size - 1,
        rows.map(({ batch }) => batch.id),
        rows.map(({ batch }) => batch.code),
        rows.map(({ batch }) => batch.kind),
        rows.map(({ batch }) => batch.phase),
        rows.map(({ from }) => from),
        rows.map(({ to }) => to),
        rows.map(({ facts }) => facts),
      ],
    ),
    manager.query('DELETE FROM batch_facts WHERE operation_id = $1 AND batch_id = ANY($2::uuid[])', [
      operationId,
      ids.filter((id) => season.batch(id) === undefined),
    ]),
    manager.query('DELETE FROM trace_edge WHERE operation_id = $1 AND batch_id = ANY($2::uuid[])', [operationId, ids]),
    insertEdges(manager, operationId, edges),
  ]);
}

function insertEdges(
  manager: EntityManager,
  operationId: string,
  edges: readonly (TraceEdge & { readonly batchId: string; readonly position: number })[],
): Promise<unknown> {
  return manager.query(
    `INSERT INTO trace_edge (operation_id, batch_id, position, from_kind, from_id, to_kind, to_id, record_id, quantity)
     SELECT $1, * FROM unnest($2::uuid[], $3::int[], $4::text[], $5::text[], $6::text[], $7::text[], $8::uuid[], $9::jsonb[])`,
    [
      operationId,
      edges.map(({ batchId }) => batchId),
      edges.map(({ position }) => position),
      edges.map(({ from }) => from.kind),
      edges.map(({ from }) => from.id),
      edges.map(({ to }) => to.kind),
      edges.map(({ to }) => to.id),
      edges.map(({ recordId }) => recordId),
      edges.map(({ quantity }) => (quantity === undefined ? null : JSON.stringify(quantity))),
    ],
  );
}

/** From the first to the last thing that happened with a batch, RFC 3339; null where everything was struck. */
function boundsOf(batch: Batch): { from: string | null; to: string | null } {
  const times = batch.records.filter(({ state }) => state !== 'struck').map(({ at }) => at.at);
  if (times.length === 0) return { from: null, to: null };
  return { from: utcText(Math.min(...times)), to: utcText(Math.max(...times)) };
}

function nameOf(season: Season): string {
  const { operation } = season;
  const name = operation?.revisions.findLast(({ changes }) => changes.name !== undefined)?.changes.name;
  return name ?? operation?.registered.name ?? '';
}
