import { Injectable } from '@nestjs/common';
import { batchesNamed, openSeason, type LogRecord, type OpenSeason } from '@furrowmark/domain';
import type { EntityManager } from 'typeorm';
import { OperationScope, Replica } from '../database/index.ts';
import { headNow, readHead, type Head } from '../log/index.ts';
import { Mutex } from './mutex.ts';
import { follow, type Following } from './follow.ts';
import { forgetUnfollowed, markStale, unfollowedFrom } from './unfollowed.ts';
import { writeFollowing } from './write-following.ts';
import { readRecords } from './read-records.ts';

/**
 * How many records all kept seasons may have together; beyond it the ones not used for longest are let go. A record takes
 * some five kilobytes of the process, folded and judged; a season that is larger by itself is kept while it is used.
 */
export class SeasonRoom {
  constructor(readonly records: number) {}
}

/** 150 MB, so that the service stays below 400 when much is recorded at once. */
export const usualRoom = 30_000;

interface Kept {
  readonly mutex: Mutex;
  season: OpenSeason;
  /** What was worked out from the season, by name; forgotten when it grows. */
  readonly workedOut: Map<string, { readonly at: number; readonly value: unknown }>;
  size: number;
  /** The batches that records from `changesFrom` on changed, with the size of the log at the last change. */
  readonly changes: Map<string, number>;
  changesFrom: number;
}

/** An operation's season, held for one append: nobody else reads it until it is released. */
export interface Held {
  /**
   * Brings the season up to `size`, adds the new records, writes what follows from them: `written`, under way. `stale` is
   * how many batches were left stale.
   */
  project(
    manager: EntityManager,
    size: number,
    records: readonly LogRecord[],
  ): Promise<{ readonly stale: number; readonly written: Promise<void> }>;
  /** `drop` where the transaction failed: the season may have taken what the database did not. */
  release(how: 'keep' | 'drop'): void;
}

/** What a reader gets: the season of everything committed, and the log's head at that moment. */
export interface Reading {
  readonly season: OpenSeason;
  readonly head: Head;
  /**
   * What `work` gives, kept under a name until the season grows or `now` (milliseconds) moves on by more than `life`: what
   * is judged depends on the clock, but not by the second.
   */
  kept<T>(name: string, now: number, life: number, work: () => T): T;
}

/**
 * The folded season of each operation, kept in memory and brought up to date from the log whenever it is looked at:
 * only rows beyond its size are read. Every process keeps its own; the log is the only thing they share.
 */
@Injectable()
export class Seasons {
  /** The one used last is last. */
  readonly #kept = new Map<string, Kept>();

  constructor(
    private readonly scope: OperationScope,
    private readonly replica: Replica,
    private readonly room: SeasonRoom,
  ) {}

  /**
   * Reads what this process has not folded yet on the replica, where there is one and it has it: before work that needs
   * all of a long log, so that the database that takes the records is spared it. Whatever is missing then, `read` reads.
   */
  async fromReplica(operationId: string): Promise<void> {
    await this.replica.run(operationId, async (manager) => {
      const head = await readHead(manager, operationId);
      const kept = this.#of(operationId);
      const leave = await kept.mutex.enter();
      try {
        if (head !== null && head.size > kept.size) await catchUp(kept, manager, operationId, head.size);
      } catch (error) {
        forget(kept);
        throw error;
      } finally {
        leave();
      }
    });
  }

  /** Reads the season as committed now. `work` must not wait for anything: while it runs the season does not change. */
  async read<T>(operationId: string, work: (reading: Reading) => T): Promise<T> {
    const reading = (kept: Kept, head: Head): Reading => ({ season: kept.season, head, kept: keeper(kept) });
    if (this.#kept.has(operationId)) {
      const head = await headNow(this.scope, operationId);
      const kept = this.#of(operationId);
      const leave = await kept.mutex.enter();
      try {
        // Nothing was recorded since it was folded, which is the rule: there is nothing to be read in its transaction.
        if (head !== null && head.size === kept.size) return work(reading(kept, head));
      } finally {
        leave();
      }
    }
    return this.#with(operationId, (kept, head) => Promise.resolve(work(reading(kept, head))));
  }

  /** Works with the season and in the transaction that it was read in; appends to the operation's season wait meanwhile. */
  withSeason<T>(operationId: string, work: (season: OpenSeason, manager: EntityManager) => Promise<T>): Promise<T> {
    return this.#with(operationId, (kept, _, manager) => work(kept.season, manager));
  }

  /**
   * In place of the note that what follows from the entries from `since` on was never written, notes the batches that
   * this concerns.
   */
  async findStale(operationId: string): Promise<void> {
    await this.#with(operationId, async (kept, { size }, manager) => {
      const since = await unfollowedFrom(manager, operationId);
      if (since === null) return;
      if (kept.changesFrom > since) {
        // Opened when it was further already, this season cannot tell what changed.
        forget(kept);
        await catchUp(kept, manager, operationId, since);
        await catchUp(kept, manager, operationId, size);
      }
      const changed =
        kept.changesFrom > since
          ? kept.season.batches().map(({ id }) => id)
          : [...kept.changes].flatMap(([id, at]) => (at > since ? [id] : []));
      await markStale(manager, operationId, size, changed);
      await forgetUnfollowed(manager, operationId, size);
    });
  }

  /**
   * First the connection, then the season: everybody takes them in this order (an append has its connection already), so
   * nobody who holds a season ever waits for a connection.
   */
  async #with<T>(
    operationId: string,
    work: (kept: Kept, head: Head, manager: EntityManager) => Promise<T>,
  ): Promise<T> {
    try {
      return await this.scope.run(operationId, async (manager) => {
        const kept = this.#of(operationId);
        const leave = await kept.mutex.enter();
        try {
          const head = await headOf(manager, operationId);
          await catchUp(kept, manager, operationId, head.size);
          return await work(kept, head, manager);
        } finally {
          leave();
        }
      });
    } finally {
      this.#letGo();
    }
  }

  async hold(operationId: string): Promise<Held> {
    const kept = this.#of(operationId);
    const leave = await kept.mutex.enter();
    /** The season must not be used again: its folding failed, or it remembers an erased name. */
    let spoilt = false;
    return {
      project: async (manager, size, records) => {
        spoilt = records.some(({ type }) => type === 'person.erased');
        await catchUp(kept, manager, operationId, size);
        let following: Following;
        try {
          const changed = kept.season.add(records).batches;
          for (const id of changed) kept.changes.set(id, size + records.length);
          following = follow(kept.season, records, changed);
        } catch (fault) {
          // A defect in the folding must not keep a true record out of the log: it is recorded, and settled once mended.
          process.emitWarning(fault instanceof Error ? fault : String(fault), { code: 'FURROWMARK_FOLD' });
          spoilt = true;
          following = { batches: [], stale: records.flatMap((record) => batchesNamed(record)), operation: null };
        }
        kept.size += records.length;
        kept.workedOut.clear();
        const written = writeFollowing(manager, operationId, kept.size, following);
        return { stale: following.stale.length, written };
      },
      release: (how) => {
        if (how === 'drop' || spoilt) forget(kept);
        leave();
        this.#letGo();
      },
    };
  }

  #of(operationId: string): Kept {
    const kept = this.#kept.get(operationId) ?? {
      mutex: new Mutex(),
      season: openSeason([]),
      workedOut: new Map(),
      size: 0,
      changes: new Map(),
      changesFrom: 0,
    };
    this.#kept.delete(operationId);
    this.#kept.set(operationId, kept);
    return kept;
  }

  #letGo(): void {
    let total = 0;
    for (const { size } of this.#kept.values()) total += size;
    for (const [operationId, kept] of this.#kept) {
      if (total <= this.room.records || this.#kept.size === 1) return;
      if (kept.mutex.busy) continue;
      total -= kept.size;
      this.#kept.delete(operationId);
    }
  }
}

async function headOf(manager: EntityManager, operationId: string): Promise<Head> {
  const head = await readHead(manager, operationId);
  if (head === null) throw new Error(`the operation ${operationId} has no log`);
  return head;
}

async function catchUp(kept: Kept, manager: EntityManager, operationId: string, size: number): Promise<void> {
  if (kept.size === size) return;
  // A smaller log than remembered: another database was put in its place.
  if (kept.size > size) forget(kept);
  const fresh = await readRecords(manager, operationId, kept.size, size);
  if (kept.size > 0 && !fresh.some(({ type }) => type === 'person.erased')) {
    for (const id of kept.season.add(fresh).batches) kept.changes.set(id, size);
  } else {
    kept.season = openSeason(kept.size === 0 ? fresh : await readRecords(manager, operationId, 0, size));
    kept.changes.clear();
    kept.changesFrom = size;
  }
  kept.size = size;
  kept.workedOut.clear();
}

function forget(kept: Kept): void {
  kept.season = openSeason([]);
  kept.size = 0;
  kept.changes.clear();
  kept.changesFrom = 0;
  kept.workedOut.clear();
}

function keeper(kept: Kept): Reading['kept'] {
  return <T>(name: string, now: number, life: number, work: () => T): T => {
    const before = kept.workedOut.get(name);
    // eslint-disable-next-line @typescript-eslint/consistent-type-assertions -- a name stands for one kind of value
    if (before !== undefined && Math.abs(now - before.at) <= life) return before.value as T;
    const value = work();
    kept.workedOut.set(name, { at: now, value });
    return value;
  };
}
