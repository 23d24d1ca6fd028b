import type { Queued } from './queued.ts';
import { external } from './value.ts';
import { database } from './database.ts';

/** What this device holds of one operation, but for the log's entries themselves: those are read where they are folded. */
export interface Held {
  readonly operationId: string;
  readonly queue: readonly Queued[];
  /** When the log was last heard, ms since 1970; null = never on this device. */
  readonly heardAt: number | null;
  /** `seq` after the last one read. */
  readonly next: number;
  /** Everything before this `seq` was read, and before `pastEnd` came in part, with the kit. */
  readonly past: number;
  readonly pastEnd: number;
  /** When reading this log began: another value means another log was put in its place. */
  readonly since: number;
  /** The whole log is here; until then only what the tank needs, and part of the past. */
  readonly whole: boolean;
}

export const held = external<Held | null>(null);

/** Tells the other tabs of this device, and what judges for them, that the store changed. */
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
  const transaction = (await database()).transaction(['read', 'queue']);
  const [read, queue] = await Promise.all([
    transaction.objectStore('read').get(operationId),
    transaction.objectStore('queue').index('inOrder').getAll(ofOperation(operationId)),
  ]);
  await transaction.done;
  if (operationId !== wanted) return;
  const { next = 0, past = 0, pastEnd = 0, since = 0, heardAt = null } = read ?? {};
  const whole = read !== undefined && past >= pastEnd;
  held.set({ operationId, queue, heardAt, next, past, pastEnd, since, whole });
}

/** Entries of the log as the service gave them, from a `seq` up to before another, at most so many. */
export async function entriesOf(operationId: string, from: number, to: number, most: number) {
  if (from >= to) return [];
  const range = IDBKeyRange.bound([operationId, from], [operationId, to], false, true);
  return (await database()).getAll('entries', range, most);
}

export const ofOperation = (operationId: string): IDBKeyRange =>
  IDBKeyRange.bound([operationId, 0], [operationId, Infinity]);

/** After a write: this tab and the others read again. */
export async function changed(): Promise<void> {
  others.postMessage('changed');
  await reload();
}
