import { CurrentRecords } from '../current.ts';
import type { Instant } from '../facts/time.ts';
import { compareCurrent, compareIds } from '../order.ts';
import type { RecordType } from '../records/catalogue.ts';
import { batchesNamed } from '../records/mentions.ts';
import type { CurrentRecord, LogRecord } from '../records/record.ts';
import { idsIn, idsOnceIn } from './idsIn.ts';
import { Memo } from './memo.ts';

/** Whether a record is of a type, for the compiler too. */
export function isOfType<T extends RecordType>(type: T) {
  return (record: CurrentRecord): record is CurrentRecord & CurrentRecord<T> => record.type === type;
}

class Shelf {
  readonly #records = new Map<string, CurrentRecord>();
  #sorted: readonly CurrentRecord[] | null = [];

  put(record: CurrentRecord): void {
    this.#records.set(record.id, record);
    this.#sorted = null;
  }
  take(id: string): void {
    this.#records.delete(id);
    this.#sorted = null;
  }
  sorted(): readonly CurrentRecord[] {
    this.#sorted ??= [...this.#records.values()].sort(compareCurrent);
    return this.#sorted;
  }
}

/**
 * The current records, findable by id, by type, and by the ids they name. Every reading is noted in `memo`, so that a
 * view folded from here is forgotten when a record it read, or could have read, comes or changes.
 */
export class Store {
  readonly memo = new Memo();
  readonly #records = new CurrentRecords();
  readonly #shown = new Map<string, CurrentRecord>();
  readonly #byType = new Map<string, Shelf>();
  readonly #byId = new Map<string, Map<string, Shelf>>();
  /** Records that named the id before an amendment, and no longer do. */
  readonly #once = new Map<string, Shelf>();
  /** Per batch, the standing records that name it. */
  readonly #batches = new Map<string, Set<string>>();
  readonly #newBatches = new Set<string>();
  #batchIds: readonly string[] | null = null;
  readonly #until: Instant;
  #size = 0;
  #version = 0;
  #lastVersion = 0;

  /** With `until`, what happened after that instant is left out; registrations hold for all time and stay. */
  constructor(until: Instant = Infinity) {
    this.#until = until;
  }

  /** Rises whenever records were taken: what is kept outside the memo holds as long as it stands still. */
  get version(): number {
    return this.#version;
  }

  get size(): number {
    this.memo.read('size');
    return this.#size;
  }

  /** Takes records; returns the keys of what changed, for `memo.changed`. */
  add(records: Iterable<LogRecord>): ReadonlySet<string> {
    this.#version = this.#lastVersion += 1;
    const touched = new Set<string>();
    const keys = new Set<string>();
    for (const record of records) {
      for (const id of this.#records.add(record)) touched.add(id);
      if (record.seq >= this.#size) {
        this.#size = record.seq + 1;
        keys.add('size');
      }
    }
    for (const id of touched) this.#refresh(id, keys);
    return keys;
  }

  /** Takes records back for good; returns the keys of what changed, for `memo.changed`. `size` stays. */
  withdraw(ids: Iterable<string>): ReadonlySet<string> {
    this.#version = this.#lastVersion += 1;
    return this.#without(ids, new Set<string>());
  }

  #without(ids: Iterable<string>, keys: Set<string>): ReadonlySet<string> {
    const touched = new Set<string>();
    for (const id of ids) for (const each of this.#records.remove(id)) touched.add(each);
    for (const id of touched) this.#refresh(id, keys);
    return keys;
  }

  /**
   * Takes records for a while. `undo` takes back those that were new, and the season is what it was, its version too;
   * a later version is never one that stood for something supposed.
   */
  suppose(records: Iterable<LogRecord>): { readonly changed: ReadonlySet<string>; undo(): ReadonlySet<string> } {
    const [size, version] = [this.#size, this.#version];
    const fresh = [...records].filter(({ id }) => this.#records.written(id) === undefined);
    return {
      changed: this.add(fresh),
      undo: () => {
        [this.#size, this.#version] = [size, version];
        return this.#without(
          fresh.map(({ id }) => id),
          new Set(['size']),
        );
      },
    };
  }

  #refresh(id: string, keys: Set<string>): void {
    const before = this.#shown.get(id);
    const now = this.#visible(this.#records.current(id));
    if (before === undefined && now === undefined) return;
    if (before !== undefined) {
      for (const shelf of this.#shelvesOf(before, keys)) shelf.take(id);
      this.#countBatches(before, keys, (records) => records.delete(id));
      this.#shown.delete(id);
    }
    if (now !== undefined) {
      for (const shelf of this.#shelvesOf(now, keys)) shelf.put(now);
      if (now.state !== 'struck') this.#countBatches(now, keys, (records) => records.add(id));
      this.#shown.set(id, now);
    }
    keys.add(`record ${id}`);
    keys.add('all');
  }

  #visible(record: CurrentRecord | undefined): CurrentRecord | undefined {
    if (record === undefined || record.at.at <= this.#until) return record;
    return /\.(registered|described)$|^record\./.test(record.type) ? record : undefined;
  }

  #shelvesOf(record: CurrentRecord, keys: Set<string>): Shelf[] {
    keys.add(`type ${record.type}`);
    const shelves = [shelf(this.#byType, record.type)];
    for (const id of idsOnceIn(record)) {
      keys.add(`once ${id}`);
      shelves.push(shelf(this.#once, id));
    }
    for (const id of idsIn(record)) {
      keys.add(`about ${id}`);
      keys.add(`${record.type} ${id}`);
      let types = this.#byId.get(id);
      if (types === undefined) this.#byId.set(id, (types = new Map()));
      shelves.push(shelf(types, record.type));
    }
    return shelves;
  }

  #countBatches(record: CurrentRecord, keys: Set<string>, change: (records: Set<string>) => void): void {
    if (record.type === 'record.amended') return;
    for (const batchId of batchesNamed(record)) {
      let records = this.#batches.get(batchId);
      if (records === undefined) {
        this.#batches.set(batchId, (records = new Set()));
        this.#newBatches.add(batchId);
      }
      const before = records.size;
      change(records);
      if ((before === 0) !== (records.size === 0)) {
        keys.add('batches');
        this.#batchIds = null;
      }
      if (records.size === 0) this.#batches.delete(batchId);
    }
  }

  /** The batches that standing records name, by id. */
  batchIds(): readonly string[] {
    this.memo.read('batches');
    this.#batchIds ??= [...this.#batches.keys()].sort(compareIds);
    return this.#batchIds;
  }

  /** The batches first named since this was last asked. */
  takeNewBatchIds(): string[] {
    const found = [...this.#newBatches];
    this.#newBatches.clear();
    return found;
  }

  all(): Iterable<CurrentRecord> {
    this.memo.read('all');
    return this.#shown.values();
  }

  /** Every record as it was first written, corrections beside what they correct. */
  written(): LogRecord[] {
    this.memo.read('all');
    return [...this.#shown.keys()].map((id) => this.#records.written(id)).filter((record) => record !== undefined);
  }

  record(id: string): CurrentRecord | undefined {
    this.memo.read(`record ${id}`);
    return this.#shown.get(id);
  }

  /** Every record that names the id, struck ones too, in order. */
  allAbout(id: string): readonly CurrentRecord[] {
    this.memo.read(`about ${id}`);
    const shelves = [...(this.#byId.get(id)?.values() ?? [])];
    return shelves.flatMap((each) => each.sorted()).sort(compareCurrent);
  }

  /** Records that an amendment turned away from the id, in order. */
  onceAbout(id: string): readonly CurrentRecord[] {
    this.memo.read(`once ${id}`);
    return this.#once.get(id)?.sorted() ?? [];
  }

  /** Standing records of a type that name the id anywhere in their data, in order. */
  naming<T extends RecordType>(type: T, id: string): readonly CurrentRecord<T>[] {
    this.memo.read(`${type} ${id}`);
    return standing(type, this.#byId.get(id)?.get(type));
  }

  /** Standing records of a type, in order. */
  ofType<T extends RecordType>(type: T): readonly CurrentRecord<T>[] {
    this.memo.read(`type ${type}`);
    return standing(type, this.#byType.get(type));
  }
}

function standing<T extends RecordType>(type: T, from: Shelf | undefined): readonly CurrentRecord<T>[] {
  if (from === undefined) return [];
  return from
    .sorted()
    .filter(isOfType(type))
    .filter((record) => record.state !== 'struck');
}

function shelf(shelves: Map<string, Shelf>, key: string): Shelf {
  let found = shelves.get(key);
  if (found === undefined) shelves.set(key, (found = new Shelf()));
  return found;
}
