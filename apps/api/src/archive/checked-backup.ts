import { createHash } from 'node:crypto';
import { base64, leafHash, linesOf, TreeAppender, unpackTar } from '@furrowmark/log';
import { z } from 'zod';
import { backupManifest, type BackupManifest } from './backup.ts';

/** A state of a log that somebody outside has seen. */
export interface Seen {
  readonly operationId: string;
  readonly size: number;
  /** Base64. */
  readonly root: string;
}

const entry = z.object({ operation_id: z.string(), seq: z.number(), bytes: z.string().regex(/^\\x[0-9a-f]*$/) });

/**
 * Reads a whole backup and holds it against its manifest: the rows of every table by number, every log by size and root
 * computed anew from its entries, every document by its digest; and against states that somebody outside has seen, as far as
 * the backup reaches. Nothing is written. Gives what is wrong, in sentences.
 */
export async function checkedBackup(
  tar: AsyncIterable<Uint8Array>,
  seen: readonly Seen[] = [],
): Promise<{ readonly manifest: BackupManifest | null; readonly faults: readonly string[] }> {
  const faults: string[] = [];
  const rows = new Map<string, number>();
  const trees = new Map<string, TreeAppender>();
  let manifest: BackupManifest | null = null;
  for await (const { name, body } of unpackTar(tar)) {
    const table = /^tables\/([a-z_]+)\/\d+\.ndjson$/.exec(name)?.[1];
    if (name === 'backup.json') {
      const chunks: Uint8Array[] = [];
      for await (const chunk of body) chunks.push(chunk);
      const read = backupManifest.safeParse(JSON.parse(Buffer.concat(chunks).toString('utf8')));
      if (!read.success) return { manifest: null, faults: ['This is no backup that is understood here.'] };
      manifest = read.data;
    } else if (table !== undefined) {
      for await (const line of linesOf(body)) {
        rows.set(table, (rows.get(table) ?? 0) + 1);
        if (table === 'log_entry') faults.push(...append(trees, line, seen));
      }
    } else if (name.startsWith('documents/')) {
      const hash = createHash('sha256');
      for await (const chunk of body) hash.update(chunk);
      if (hash.digest('hex') !== name.slice('documents/'.length)) faults.push(`${name} is not what its name says.`);
    }
  }
  if (manifest === null) return { manifest, faults: ['There is no backup.json in it.'] };
  for (const { table, rows: counted } of manifest.tables) {
    const found = rows.get(table) ?? 0;
    if (found !== counted) faults.push(`${table} has ${found} rows, not the ${counted} that the backup says.`);
  }
  for (const { operationId, size, root } of manifest.operations) {
    const tree = trees.get(operationId) ?? new TreeAppender();
    if (tree.size !== size || base64(tree.root()) !== root)
      faults.push(`The log of ${operationId} is not the one whose ${size} entries have the root ${root}.`);
  }
  return { manifest, faults: faults.slice(0, 50) };
}

function append(trees: Map<string, TreeAppender>, line: Uint8Array, seen: readonly Seen[]): string[] {
  const { operation_id: operationId, seq, bytes } = entry.parse(JSON.parse(Buffer.from(line).toString('utf8')));
  const tree = trees.get(operationId) ?? new TreeAppender();
  trees.set(operationId, tree);
  const faults = seq === tree.size ? [] : [`Entry ${tree.size} of ${operationId} is missing.`];
  tree.append(leafHash(Buffer.from(bytes.slice(2), 'hex')));
  for (const each of seen) {
    if (each.operationId !== operationId || each.size !== tree.size || base64(tree.root()) === each.root) continue;
    faults.push(
      `The first ${each.size} entries of ${operationId} are not those that a checkpoint has seen: the backup is of another history.`,
    );
  }
  return faults;
}
