import { CurrentRecords } from '../current.ts';
import type { Instant } from '../facts/time.ts';
import { compareCurrent, compareIds } from '../order.ts';
import type { RecordType } from '../records/catalogue.ts';
import { batchesNamed } from '../records/mentions.ts';
import type { CurrentRecord, LogRecord } from '../records/record.ts';
import { idsIn, idsOnceIn } from './idsIn.ts';
import { Memo, Readable } from './memo.ts';

const none: CurrentRecord[] = [];
const few = 8;

/** Records that stand together, in order; what is read of them is noted by the shelf itself. */
class Shelf extends Readable {
  #records: CurrentRecord[] = none;
  #standing: readonly CurrentRecord[] | null = none;
  /** What was given out stays as it was. */
  #given = true;
  #inOrder = true;

  /** Takes a record that is not there. */
  put(record: CurrentRecord): void {
    const last = this.#records.at(-1);
    this.#inOrder &&= last === undefined || compareCurrent(last, record) < 0;
    // Most shelves hold one or two records: a list that grows by itself would keep room for many.
    if (this.#records.length < few) {
      this.#records = [...this.#records, record];
      this.#given = false;
      this.#standing = null;
    } else this.#own().push(record);
  }
  take(id: string): void {
    const at = this.#records.findIndex((record) => record.id === id);
    if (at >= 0) this.#own().splice(at, 1);
  }
  #own(): CurrentRecord[] {
    if (this.#given) this.#records = [...this.#records];
    this.#given = false;
    this.#standing = null;
    return this.#records;
  }
  /** Struck ones too. */
  sorted(): readonly CurrentRecord[] {
    if (!this.#inOrder) this.#own().sort(compareCurrent);
    this.#inOrder = true;
    this.#given = true;
    return this.#records;
  }
  standing(): readonly CurrentRecord[] {
    if (this.#standing === null) {
      const all = this.sorted();
      const isStruck = ({ state }: CurrentRecord): boolean => state === 'struck';
      this.#standing = all.some(isStruck) ? all.filter((record) => !isStruck(record)) : all;
    }
    return this.#standing;
  }
}

/** Whether records that are all of one type are of this one, for the compiler too. */
function areOfType<T extends RecordType>(
  type: T,
  records: readonly CurrentRecord[],
): records is readonly (CurrentRecord & CurrentRecord<T>)[] {
  return records.every((record) => record.type === type);
}

/** What one id stands for: the record of that id, and the records that name it. Made as far as somebody asks. */
class Entry {
  #record: Readable | null = null;
  #about: Readable | null = null;
  #once: Shelf | null = null;
  #byType: Map<string, Shelf> | null = null;

  get record(): Readable {
    return (this.#record ??= new Readable());
  }
  /** All that name it, whatever their type. */
  get about(): Readable {
    return (this.#about ??= new Readable());
  }
  /** Records that named the id before an amendment, and no longer do. */
  get once(): Shelf {
    return (this.#once ??= new Shelf());
  }
  of(type: string): Shelf {
    return shelf((this.#byType ??= new Map<string, Shelf>()), type);
  }
  shelves(): Iterable<Shelf> {
    return this.#byType?.values() ?? [];
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
  readonly #byId = new Map<string, Entry>();
  readonly #reads = { size: new Readable(), all: new Readable(), batches: new Readable() };
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
    this.memo.read(this.#reads.size);
    return this.#size;
  }

  /** Takes records; returns what changed, for `memo.changed`. */
  add(records: Iterable<LogRecord>): ReadonlySet<Readable> {
    this.#version = this.#lastVersion += 1;
    const touched = new Set<string>();
    const changed = new Set<Readable>();
    for (const record of records) {
      for (const id of this.#records.add(record)) touched.add(id);
      if (record.seq >= this.#size) {
        this.#size = record.seq + 1;
        changed.add(this.#reads.size);
      }
    }
    for (const id of touched) this.#refresh(id, changed);
    return changed;
  }

  /** Takes records back for good; returns what changed, for `memo.changed`. `size` stays. */
  withdraw(ids: Iterable<string>): ReadonlySet<Readable> {
    this.#version = this.#lastVersion += 1;
    return this.#without(ids, new Set());
  }

  #without(ids: Iterable<string>, changed: Set<Readable>): ReadonlySet<Readable> {
    const touched = new Set<string>();
    for (const id of ids) for (const each of this.#records.remove(id)) touched.add(each);
    for (const id of touched) this.#refresh(id, changed);
    return changed;
  }

  /**
   * Takes records for a while. `undo` takes back those that were new, and the season is what it was, its version too;
   * a later version is never one that stood for something supposed.
   */
  suppose(records: Iterable<LogRecord>): { readonly changed: ReadonlySet<Readable>; undo(): ReadonlySet<Readable> } {
    const [size, version] = [this.#size, this.#version];
    const fresh = [...records].filter(({ id }) => this.#records.written(id) === undefined);
    return {
      changed: this.add(fresh),
      undo: () => {
        [this.#size, this.#version] = [size, version];
        return this.#without(
          fresh.map(({ id }) => id),
          new Set([this.#reads.size]),
        );
      },
    };
  }

  #refresh(id: string, changed: Set<Readable>): void {
    const before = this.#shown.get(id);
    const now = this.#visible(this.#records.current(id));
    if (before === undefined && now === undefined) return;
    if (before !== undefined) {
      for (const shelf of this.#shelvesOf(before, changed)) shelf.take(id);
      this.#countBatches(before, changed, (records) => records.delete(id));
      this.#shown.delete(id);
    }
    if (now !== undefined) {
      for (const shelf of this.#shelvesOf(now, changed)) shelf.put(now);
      if (now.state !== 'struck') this.#countBatches(now, changed, (records) => records.add(id));
      this.#shown.set(id, now);
    }
    const entry = this.#byId.get(id);
    if (entry !== undefined) changed.add(entry.record);
    changed.add(this.#reads.all);
  }

  #visible(record: CurrentRecord | undefined): CurrentRecord | undefined {
    if (record === undefined || record.at.at <= this.#until) return record;
    return /\.(registered|described)$|^record\./.test(record.type) ? record : undefined;
  }

  #shelvesOf(record: CurrentRecord, changed: Set<Readable>): Shelf[] {
    const shelves = [shelf(this.#byType, record.type)];
    for (const id of idsOnceIn(record)) shelves.push(this.#entry(id).once);
    for (const id of idsIn(record)) {
      const entry = this.#entry(id);
      changed.add(entry.about);
      shelves.push(entry.of(record.type));
    }
    for (const each of shelves) changed.add(each);
    return shelves;
  }

  #entry(id: string): Entry {
    let found = this.#byId.get(id);
    if (found === undefined) this.#byId.set(id, (found = new Entry()));
    return found;
  }

  #countBatches(record: CurrentRecord, changed: Set<Readable>, change: (records: Set<string>) => void): void {
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
        changed.add(this.#reads.batches);
        this.#batchIds = null;
      }
      if (records.size === 0) this.#batches.delete(batchId);
    }
  }

  /** The batches that standing records name, by id. */
  batchIds(): readonly string[] {
    this.memo.read(this.#reads.batches);
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
    this.memo.read(this.#reads.all);
    return this.#shown.values();
  }

  /** Every record as it was first written, corrections beside what they correct. */
  written(): LogRecord[] {
    this.memo.read(this.#reads.all);
    return [...this.#shown.keys()].map((id) => this.#records.written(id)).filter((record) => record !== undefined);
  }

  record(id: string): CurrentRecord | undefined {
    this.memo.read(this.#entry(id).record);
    return this.#shown.get(id);
  }

  /** Every record that names the id, struck ones too, in order. */
  allAbout(id: string): readonly CurrentRecord[] {
    const entry = this.#entry(id);
    this.memo.read(entry.about);
    const [only, ...others] = [...entry.shelves()].map((each) => each.sorted()).filter((each) => each.length > 0);
    if (only === undefined) return none;
    return others.length === 0 ? only : only.concat(...others).sort(compareCurrent);
  }

  /** Records that an amendment turned away from the id, in order. */
  onceAbout(id: string): readonly CurrentRecord[] {
    const { once } = this.#entry(id);
    this.memo.read(once);
    return once.sorted();
  }

  /** Standing records of a type that name the id anywhere in their data, in order. */
  naming<T extends RecordType>(type: T, id: string): readonly CurrentRecord<T>[] {
    return this.#standing(type, this.#entry(id).of(type));
  }

  /** Standing records of a type, in order. */
  ofType<T extends RecordType>(type: T): readonly CurrentRecord<T>[] {
    return this.#standing(type, shelf(this.#byType, type));
  }

  #standing<T extends RecordType>(type: T, from: Shelf): readonly CurrentRecord<T>[] {
    this.memo.read(from);
    const records = from.standing();
    if (!areOfType(type, records)) throw new Error(`a record stands on the shelf of ${type} that is none`);
    return records;
  }
}

function shelf(shelves: Map<string, Shelf>, key: string): Shelf {
  let found = shelves.get(key);
  if (found === undefined) shelves.set(key, (found = new Shelf()));
  return found;
}
