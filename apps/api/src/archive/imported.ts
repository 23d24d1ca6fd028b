import type { EntityManager } from 'typeorm';
import { z } from 'zod';
import { int8 } from '../log/index.ts';

const rows = z.array(
  z
    .object({ size: int8, root: z.instanceof(Buffer), key: z.string().nullable(), archive_sha256: z.string() })
    .transform((row) => ({
      size: row.size,
      root: row.root.toString('base64'),
      key: row.key,
      archiveSha256: row.archive_sha256,
    })),
);

/** What a log was when it came in as an archive; null for one that began here. */
export async function importOf(manager: EntityManager, operationId: string): Promise<z.output<typeof rows>[0] | null> {
  const found = await manager.query('SELECT size, root, key, archive_sha256 FROM imported WHERE operation_id = $1', [
    operationId,
  ]);
  return rows.parse(found)[0] ?? null;
}
