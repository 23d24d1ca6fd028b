import { Injectable } from '@nestjs/common';
import { openSeason, type OpenSeason } from '@furrowmark/domain';
import type { EntityManager } from 'typeorm';
import { OperationScope, Replica } from '../database/index.ts';
import { headNow, readHead, type Head } from '../log/index.ts';
import { Mutex } from './mutex.ts';
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

  /** Works with the season and in the transaction that it was read in; others who read it wait meanwhile. */
  withSeason<T>(operationId: string, work: (season: OpenSeason, manager: EntityManager) => Promise<T>): Promise<T> {
    return this.#with(operationId, (kept, _, manager) => work(kept.season, manager));
  }

  /**
   * The same, with the batches that the entries from a number on may have changed. `from` tells that number in the same
   * transaction; null: there is no work.
   */
  withChanges<T>(
    operationId: string,
    from: (manager: EntityManager, operationId: string) => Promise<number | null>,
    work: (changed: readonly string[], season: OpenSeason, manager: EntityManager) => Promise<T>,
  ): Promise<T | null> {
    return this.#held(operationId, async (kept, manager) => {
      const first = await from(manager, operationId);
      if (first === null) return null;
      const { size } = await headOf(manager, operationId);
      // A season that was opened when it was further already cannot tell what changed.
      if (kept.changesFrom > first) forget(kept);
      if (kept.size < first) await catchUp(kept, manager, operationId, first);
      await catchUp(kept, manager, operationId, size);
      const changed =
        kept.changesFrom > first
          ? kept.season.batches().map(({ id }) => id)
          : [...kept.changes].flatMap(([id, at]) => (at > first ? [id] : []));
      return work(changed, kept.season, manager);
    });
  }

  #with<T>(operationId: string, work: (kept: Kept, head: Head, manager: EntityManager) => Promise<T>): Promise<T> {
    return this.#held(operationId, async (kept, manager) => {
      const head = await headOf(manager, operationId);
      await catchUp(kept, manager, operationId, head.size);
      return work(kept, head, manager);
    });
  }

  /** First the connection, then the season: nobody who holds a season ever waits for a connection. */
  async #held<T>(operationId: string, work: (kept: Kept, manager: EntityManager) => Promise<T>): Promise<T> {
    try {
      return await this.scope.run(operationId, async (manager) => {
        const kept = this.#of(operationId);
        const leave = await kept.mutex.enter();
        try {
          return await work(kept, manager);
        } finally {
          leave();
        }
      });
    } finally {
      this.#letGo();
    }
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

/** Brings a season up to that size of the log. One whose folding fails is dropped: it may have taken a part. */
async function catchUp(kept: Kept, manager: EntityManager, operationId: string, size: number): Promise<void> {
  if (kept.size === size) return;
  // A smaller log than remembered: another database was put in its place.
  if (kept.size > size) forget(kept);
  const fresh = await readRecords(manager, operationId, kept.size, size);
  if (kept.size > 0 && !fresh.some(({ type }) => type === 'person.erased')) {
    try {
      for (const id of kept.season.add(fresh).batches) kept.changes.set(id, size);
    } catch (fault) {
      forget(kept);
      throw fault;
    }
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
