import { equalBytes, nodesForRoot, parseNote, rootOf, signNote } from '@furrowmark/log';
import type { EntityManager } from 'typeorm';
import { checkpointIn, hashesOf, keptCheckpoints, readHead, type Signing } from '../log/index.ts';

/**
 * The earlier checkpoints that an archive carries: those over each handing over of the key, and those that came with an
 * imported log. Of several of one size the first. The present key signs them too, where the log still has their root, so
 * that a reader who holds only the newest key can use them.
 */
export async function cosignedCheckpoints(
  manager: EntityManager,
  signing: Signing,
  operationId: string,
  size: number,
): Promise<Map<number, string>> {
  const notes = new Map<number, string>();
  const kept = await keptCheckpoints(manager, operationId);
  const head = await readHead(manager, operationId);
  for (const { size: at, note, why } of kept) {
    if (why === 'schedule' || at > size || at === 0 || notes.has(at)) continue;
    const agrees = head !== null && !head.readOnly && (await hasRoot(manager, operationId, note));
    notes.set(at, agrees ? cosigned(note, await signing.signer(manager, operationId)) : note);
  }
  return notes;
}

async function hasRoot(manager: EntityManager, operationId: string, note: string): Promise<boolean> {
  const { size, root } = checkpointIn(note);
  const edge = await hashesOf(manager, operationId, nodesForRoot(size)).catch(() => null);
  return edge !== null && equalBytes(rootOf({ size, edge }), root);
}

function cosigned(note: string, signer: Parameters<typeof signNote>[1][number]): string {
  const read = parseNote(note);
  if (!read.ok || read.value.signatures.some(({ keyId }) => keyId === signer.key.keyId)) return note;
  const { text } = read.value;
  return `${note}${signNote(text, [signer]).slice(text.length + 1)}`;
}
