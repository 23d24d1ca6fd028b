import { Injectable } from '@nestjs/common';
import { batchesNamed, openSeason, type LogRecord, type OpenSeason } from '@furrowmark/domain';
import type { EntityManager } from 'typeorm';
import { OperationScope } from '../database/index.ts';
import { readHead, type Head } from '../log/index.ts';
import { Mutex } from './mutex.ts';
import { follow, type Following } from './follow.ts';
import { writeFollowing } from './write-following.ts';
import { readRecords } from './read-records.ts';

/** Records that all kept seasons have together; beyond it the ones not used for longest are let go. */
const mostKept = 400_000;

interface Kept {
  readonly mutex: Mutex;
  season: OpenSeason;
  /** What was worked out from the season, by name; forgotten when it grows. */
  readonly workedOut: Map<string, { readonly at: number; readonly value: unknown }>;
  size: number;
}

/** An operation's season, held for one append: nobody else reads it until it is released. */
export interface Held {
  /**
   * Brings the season up to `size`, adds the new records, writes what follows from them; gives how many batches were left
   * stale.
   */
  project(manager: EntityManager, size: number, records: readonly LogRecord[]): Promise<number>;
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

  constructor(private readonly scope: OperationScope) {}

  /** Reads the season as committed now. `work` must not wait for anything: while it runs the season does not change. */
  read<T>(operationId: string, work: (reading: Reading) => T): Promise<T> {
    return this.#with(operationId, (kept, head) =>
      Promise.resolve(work({ season: kept.season, head, kept: keeper(kept) })),
    );
  }

  /** Works with the season and in the transaction that it was read in; appends to the operation's season wait meanwhile. */
  withSeason<T>(operationId: string, work: (season: OpenSeason, manager: EntityManager) => Promise<T>): Promise<T> {
    return this.#with(operationId, (kept, _, manager) => work(kept.season, manager));
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
          following = follow(kept.season, records, kept.season.add(records).batches);
        } catch (fault) {
          // A defect in the folding must not keep a true record out of the log: it is recorded, and settled once mended.
          process.emitWarning(fault instanceof Error ? fault : String(fault), { code: 'FURROWMARK_FOLD' });
          spoilt = true;
          following = { batches: [], stale: records.flatMap((record) => batchesNamed(record)), operation: null };
        }
        kept.size += records.length;
        kept.workedOut.clear();
        await writeFollowing(manager, operationId, kept.size, following);
        return following.stale.length;
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
    };
    this.#kept.delete(operationId);
    this.#kept.set(operationId, kept);
    return kept;
  }

  #letGo(): void {
    let total = 0;
    for (const { size } of this.#kept.values()) total += size;
    for (const [operationId, kept] of this.#kept) {
      if (total <= mostKept || this.#kept.size === 1) return;
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
  if (kept.size > 0 && !fresh.some(({ type }) => type === 'person.erased')) kept.season.add(fresh);
  else kept.season = openSeason(kept.size === 0 ? fresh : await readRecords(manager, operationId, 0, size));
  kept.size = size;
  kept.workedOut.clear();
}

function forget(kept: Kept): void {
  kept.season = openSeason([]);
  kept.size = 0;
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
