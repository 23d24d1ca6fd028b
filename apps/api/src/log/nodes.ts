import type { NodeId } from '@furrowmark/log';
import type { EntityManager } from 'typeorm';
import { z } from 'zod';

const rows = z.array(z.object({ hash: z.instanceof(Buffer).nullable() }));

/** The hashes of complete subtrees, in the order asked for, in one query. Level 0 is the entries' leaf hashes. */
export async function hashesOf(
  manager: EntityManager,
  operationId: string,
  nodes: readonly NodeId[],
): Promise<Buffer[]> {
  if (nodes.length === 0) return [];
  const found = rows.parse(
    await manager.query(
      `SELECT coalesce(t.hash, e.leaf_hash) AS hash
         FROM unnest($2::smallint[], $3::bigint[]) WITH ORDINALITY AS n (level, index, position)
         LEFT JOIN tree_node t ON n.level > 0 AND t.operation_id = $1 AND t.level = n.level AND t.index = n.index
         LEFT JOIN log_entry e ON n.level = 0 AND e.operation_id = $1 AND e.seq = n.index
        ORDER BY n.position`,
      [operationId, nodes.map(({ level }) => level), nodes.map(({ index }) => index)],
    ),
  );
  return found.map(({ hash }, i) => {
    if (hash === null) throw new Error(`the tree of ${operationId} has no node ${nodes[i]?.level}/${nodes[i]?.index}`);
    return hash;
  });
}
