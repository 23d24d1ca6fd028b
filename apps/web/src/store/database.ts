import { openDB, type DBSchema, type IDBPDatabase, type IDBPTransaction } from 'idb';
import type { AlertPlan } from '../alerts/planned.ts';
import type { Unfinished, UnfinishedEntries } from '../tank/typed.ts';
import type { Queued, QueuedFile } from './queued.ts';

/** What the device keeps. Nothing in `queue` or `files` is ever removed by an upgrade. */
export interface Kept extends DBSchema {
  /** The log as read so far, by operation and `seq`: entries exactly as the service gave them. */
  entries: { key: [string, number]; value: { operationId: string; seq: number; entry: unknown } };
  read: { key: string; value: Reading };
  queue: {
    key: string;
    value: Queued;
    indexes: { inOrder: [string, number]; byState: [string, Queued['state']['kind'], number] };
  };
  files: { key: string; value: QueuedFile };
  /** What was shown last, by operation: in view at once, until it was judged anew. */
  shown: { key: string; value: Shown };
  /** What this device tells of, by operation. */
  alerts: { key: string; value: AlertPlan };
  /** Forms that were begun and not recorded: in view again when the form is opened again, for a day. */
  unfinished: { key: string; value: Unfinished | UnfinishedEntries };
}

/** The last pictures, plain data. `tanks` is what the view of the tanks makes of it; an older app may have written it. */
export interface Shown {
  readonly operationId: string;
  readonly tanks: unknown;
}

/** How far an operation's log was read. */
export interface Reading {
  readonly operationId: string;
  /** The next `seq` to ask for. */
  readonly next: number;
  /** The log before `pastEnd` came as a kit; `past` is the `seq` up to which all of it is here. */
  readonly past: number;
  readonly pastEnd: number;
  readonly heardAt: number;
  /** When reading this log began, ms since 1970; absent where an older version of the app began it. */
  readonly since?: number;
}

export type Database = IDBPDatabase<Kept>;
type Upgrade = (
  db: Database,
  transaction: IDBPTransaction<Kept, (keyof KeptStores)[], 'versionchange'>,
) => void | Promise<void>;
type KeptStores = { entries: 1; read: 1; queue: 1; files: 1; shown: 1; alerts: 1; unfinished: 1 };

/** One step per version ever released; a device that was away for long runs several. */
const upgrades: readonly Upgrade[] = [
  (db) => {
    db.createObjectStore('entries', { keyPath: ['operationId', 'seq'] });
    db.createObjectStore('read', { keyPath: 'operationId' });
    db.createObjectStore('queue', { keyPath: 'id' }).createIndex('inOrder', ['operationId', 'order']);
    db.createObjectStore('files', { keyPath: 'sha256' });
  },
  // A long queue is not gone through for what waits in it; what is there already gets into the index by itself.
  (db, transaction) => {
    transaction.objectStore('queue').createIndex('byState', ['operationId', 'state.kind', 'order']);
    db.createObjectStore('shown', { keyPath: 'operationId' });
    db.createObjectStore('alerts', { keyPath: 'operationId' });
  },
  (db) => {
    db.createObjectStore('unfinished', { keyPath: 'id' });
  },
];

let opened: Promise<Database> | null = null;

/** The device's database, opened once. A tab that holds an older version gives way, so that an update is not held up. */
export function database(): Promise<Database> {
  opened ??= openDB<Kept>('furrowmark', upgrades.length, {
    async upgrade(db, from, _to, transaction) {
      for (const step of upgrades.slice(from)) await step(db, transaction);
    },
    blocking(_current, _blocked, event) {
      const { target } = event;
      if (target instanceof IDBDatabase) target.close();
      opened = null;
    },
    terminated() {
      opened = null;
    },
  });
  return opened;
}
