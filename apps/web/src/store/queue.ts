import { database } from './database.ts';
import { changed, ofOperation } from './held.ts';
import type { Queued, QueuedFile, SentRecord } from './queued.ts';

/**
 * Puts records (and the photos they name) onto this device, durably, in one transaction: all or none. Resolves when
 * they are on the disk. `by`: who holds the shared phone. The same id again replaces what waits under it, unless the service has it already.
 */
export async function enqueue(
  operationId: string,
  records: readonly SentRecord[],
  files: readonly QueuedFile[] = [],
  by?: Queued['by'],
): Promise<void> {
  const db = await database();
  const transaction = db.transaction(['queue', 'files'], 'readwrite', { durability: 'strict' });
  const queue = transaction.objectStore('queue');
  const last = await queue.index('inOrder').openKeyCursor(ofOperation(operationId), 'prev');
  const lastKey: unknown = last?.key;
  let order = Array.isArray(lastKey) ? Number(lastKey[1]) : 0;
  for (const file of files) await transaction.objectStore('files').put(file);
  for (const record of records) {
    const before = await queue.get(record.id);
    if (before?.state.kind === 'recorded') continue;
    order += 1;
    const { id } = record;
    await queue.put({ id, operationId, order: before?.order ?? order, record, by, state: { kind: 'waiting' } });
  }
  await transaction.done;
  await changed();
}

/** What waits to be sent, in order. */
export async function waiting(operationId: string, most: number): Promise<readonly Queued[]> {
  const db = await database();
  const range = IDBKeyRange.bound([operationId, 'waiting', 0], [operationId, 'waiting', Infinity]);
  return db.getAllFromIndex('queue', 'byState', range, most);
}

/** Notes what the service said of each. One that was changed or let go meanwhile keeps the person's word. */
export async function settle(
  outcomes: readonly { readonly sent: Queued; readonly state: Queued['state'] }[],
): Promise<void> {
  const db = await database();
  const transaction = db.transaction('queue', 'readwrite', { durability: 'strict' });
  for (const { sent, state } of outcomes) {
    const now = await transaction.store.get(sent.id);
    if (now === undefined) continue;
    const untouched = JSON.stringify(now.record) === JSON.stringify(sent.record);
    if (untouched || state.kind === 'recorded') await transaction.store.put({ ...now, state });
  }
  await transaction.done;
  await changed();
}

/** Lets a waiting or refused record go. Only ever called on a person's word. */
export async function letGo(id: string): Promise<void> {
  const db = await database();
  await db.delete('queue', id);
  await changed();
}

/** Everything that waits on this device, for saving as a file when it cannot be sent. */
export async function everythingQueued(): Promise<readonly Queued[]> {
  return (await database()).getAll('queue');
}
