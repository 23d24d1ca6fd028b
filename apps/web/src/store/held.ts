import type { Queued } from './queued.ts';
import { external } from './external.ts';
import { database } from './database.ts';

/** What this device holds of one operation. */
export interface Held {
  readonly operationId: string;
  /** The log as read so far, in order of `seq`. */
  readonly entries: readonly unknown[];
  readonly queue: readonly Queued[];
  /** When the log was last heard, ms since 1970; null = never on this device. */
  readonly heardAt: number | null;
  /** `seq` after the last one read. */
  readonly next: number;
  /** The whole log is here; until then only what the tank needs, and part of the past. */
  readonly whole: boolean;
}

export const held = external<Held | null>(null);

/** Tells the other tabs of this device that the store changed. */
const others = new BroadcastChannel('furrowmark.store');
others.onmessage = () => void reload();

let wanted: string | null = null;

/** Reads what the device holds of an operation, and follows it from now on. */
export async function hold(operationId: string): Promise<void> {
  wanted = operationId;
  await reload();
}

async function reload(): Promise<void> {
  const operationId = wanted;
  if (operationId === null) return;
  const db = await database();
  const { entries, read, queue } = await readAll(operationId, db);
  if (operationId !== wanted) return;
  held.set({
    operationId,
    entries: entries.map(({ entry }) => entry),
    queue,
    heardAt: read?.heardAt ?? null,
    next: read?.next ?? 0,
    whole: read !== undefined && read.past >= read.pastEnd,
  });
}

async function readAll(operationId: string, db: Awaited<ReturnType<typeof database>>) {
  const transaction = db.transaction(['entries', 'read', 'queue']);
  const [entries, read, queue] = await Promise.all([
    transaction.objectStore('entries').getAll(IDBKeyRange.bound([operationId, 0], [operationId, Infinity])),
    transaction.objectStore('read').get(operationId),
    transaction
      .objectStore('queue')
      .index('inOrder')
      .getAll(IDBKeyRange.bound([operationId, 0], [operationId, Infinity])),
  ]);
  await transaction.done;
  return { entries, read, queue };
}

/** After a write: this tab and the others read again. */
export async function changed(): Promise<void> {
  others.postMessage('changed');
  await reload();
}
