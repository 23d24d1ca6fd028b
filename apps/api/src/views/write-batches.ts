import type { Season } from '@furrowmark/domain';
import type { EntityManager } from 'typeorm';
import { z } from 'zod';
import { arrayText, prepared } from '../database/index.ts';
import { keptOf, type KeptBatch } from './kept-batch.ts';

/** Facts and edges of batches as {@link valuesOf} gives them to a statement. */
const given = `
  SELECT * FROM unnest($3::uuid[], $4::text[], $5::text[], $6::text[], $7::timestamptz[], $8::timestamptz[],
                       string_to_array($9, chr(30))::jsonb[], $10::int[])
                  AS b (batch_id, code, kind, phase, from_at, to_at, facts, edges)`;
const givenEdges = `
  SELECT * FROM unnest($11::uuid[], $12::int[], $13::text[], $14::text[], $15::text[], $16::text[], $17::uuid[],
                       $18::jsonb[])
                  AS e (batch_id, position, from_kind, from_id, to_kind, to_id, record_id, quantity)`;

/**
 * Facts and edges of batches in one statement. Edges are overwritten place by place and what is left of a longer list is
 * taken away; both only where the facts are not newer already.
 */
const upsertKept = `
  WITH given AS (${given}), kept AS (
    INSERT INTO batch_facts (operation_id, batch_id, as_of_seq, code, kind, phase, from_at, to_at, facts)
    SELECT $1, batch_id, $2, code, kind, phase, from_at, to_at, facts FROM given
    ON CONFLICT (operation_id, batch_id) DO UPDATE
       SET as_of_seq = EXCLUDED.as_of_seq, code = EXCLUDED.code, kind = EXCLUDED.kind, phase = EXCLUDED.phase,
           from_at = EXCLUDED.from_at, to_at = EXCLUDED.to_at, facts = EXCLUDED.facts
     WHERE batch_facts.as_of_seq <= EXCLUDED.as_of_seq
    RETURNING batch_id
  ), gone AS (
    DELETE FROM trace_edge t USING given, kept
     WHERE t.operation_id = $1 AND t.batch_id = given.batch_id AND kept.batch_id = given.batch_id
       AND t.position >= given.edges
  )
  INSERT INTO trace_edge (operation_id, batch_id, position, from_kind, from_id, to_kind, to_id, record_id, quantity)
  SELECT $1, e.* FROM (${givenEdges}) AS e JOIN kept ON kept.batch_id = e.batch_id
  ON CONFLICT (operation_id, batch_id, position) DO UPDATE
     SET from_kind = EXCLUDED.from_kind, from_id = EXCLUDED.from_id, to_kind = EXCLUDED.to_kind,
         to_id = EXCLUDED.to_id, record_id = EXCLUDED.record_id, quantity = EXCLUDED.quantity`;

/**
 * The batches of which anything is kept otherwise than given, in the form in which the database keeps it: facts, edges, and
 * a state that says it is newer than the log.
 */
const differingKept = `
  WITH given AS (${given}), edge AS (${givenEdges}),
       kept AS (SELECT * FROM batch_facts WHERE operation_id = $1),
       kept_edge AS (SELECT * FROM trace_edge WHERE operation_id = $1),
       differing AS (
         SELECT batch_id FROM given g FULL JOIN kept k USING (batch_id)
          WHERE k.as_of_seq > $2 OR (g.code, g.kind, g.phase, g.from_at, g.to_at, g.facts)
                   IS DISTINCT FROM (k.code, k.kind, k.phase, k.from_at, k.to_at, k.facts)
         UNION
         SELECT batch_id FROM edge e FULL JOIN kept_edge k USING (batch_id, position)
          WHERE (e.from_kind, e.from_id, e.to_kind, e.to_id, e.record_id, e.quantity)
                   IS DISTINCT FROM (k.from_kind, k.from_id, k.to_kind, k.to_id, k.record_id, k.quantity)
       )
  SELECT batch_id AS id, batch_id IN (SELECT batch_id FROM given) AS given,
         batch_id IN (SELECT batch_id FROM kept) AS kept
    FROM differing ORDER BY batch_id`;
const differingRows = z.array(z.object({ id: z.string(), given: z.boolean(), kept: z.boolean() }));

function valuesOf(operationId: string, size: number, batches: readonly KeptBatch[]): unknown[] {
  const edges = batches.flatMap(({ batchId, edges: all }) =>
    all.map((edge, position) => ({ batchId, position, ...edge })),
  );
  return [
    operationId,
    size - 1,
    arrayText(batches.map(({ batchId }) => batchId)),
    batches.map(({ code }) => code),
    batches.map(({ kind }) => kind),
    batches.map(({ phase }) => phase),
    batches.map(({ from }) => from),
    batches.map(({ to }) => to),
    // In one text: no JSON text has this control character, and so the driver need not quote it character by character.
    batches.map(({ facts }) => facts).join('\u001e'),
    arrayText(batches.map(({ edges: all }) => all.length)),
    arrayText(edges.map(({ batchId }) => batchId)),
    arrayText(edges.map(({ position }) => position)),
    arrayText(edges.map(({ from }) => from.kind)),
    edges.map(({ from }) => from.id),
    arrayText(edges.map(({ to }) => to.kind)),
    edges.map(({ to }) => to.id),
    arrayText(edges.map(({ recordId }) => recordId)),
    edges.map(({ quantity }) => (quantity === undefined ? null : JSON.stringify(quantity))),
  ];
}

/** Writes what is kept of batches as of a log size. A newer state, written meanwhile, stays. */
async function writeKept(
  manager: EntityManager,
  operationId: string,
  size: number,
  batches: readonly KeptBatch[],
): Promise<void> {
  if (batches.length === 0) return;
  await prepared(manager, upsertKept, valuesOf(operationId, size, batches));
}

/**
 * The batches of which anything is kept otherwise than it follows from the season; `given` where the season has the batch,
 * `kept` where facts are kept of it. Nothing is written.
 */
export async function differingBatches(
  manager: EntityManager,
  operationId: string,
  season: Season,
): Promise<z.output<typeof differingRows>> {
  const batches = season.batches().flatMap(({ id }) => keptOf(season, id));
  return differingRows.parse(await manager.query(differingKept, valuesOf(operationId, season.size, batches)));
}

/** Writes anew what is kept of these batches, as the season has them. */
export async function writeBatches(
  manager: EntityManager,
  operationId: string,
  season: Season,
  ids: readonly string[],
): Promise<void> {
  await writeKept(
    manager,
    operationId,
    season.size,
    ids.flatMap((id) => keptOf(season, id)),
  );
  const gone = ids.filter((id) => season.batch(id) === undefined);
  if (gone.length > 0) await forgetBatches(manager, operationId, gone);
}

/** Takes away what is kept of these batches. */
export async function forgetBatches(
  manager: EntityManager,
  operationId: string,
  ids: readonly string[],
): Promise<void> {
  for (const table of ['batch_facts', 'trace_edge']) {
    await manager.query(`DELETE FROM ${table} WHERE operation_id = $1 AND batch_id = ANY($2::uuid[])`, [
      operationId,
      ids,
    ]);
  }
}

/**
 * The operation's name and zone, where its list does not have them as the season does; not where the log has grown
 * meanwhile: then there is more to follow, and it is done with that.
 */
export async function writeDescription(manager: EntityManager, operationId: string, season: Season): Promise<void> {
  const { operation } = season;
  if (operation === null) return;
  const renamed = operation.revisions.findLast(({ changes }) => changes.name !== undefined)?.changes.name;
  await prepared(
    manager,
    `UPDATE operation SET name = $2, time_zone = $3
      WHERE operation_id = $1 AND (name, time_zone) IS DISTINCT FROM ($2, $3)
        AND (SELECT size FROM log_head WHERE operation_id = $1) = $4`,
    [operationId, renamed ?? operation.registered.name, season.timeZone, season.size],
  );
}
