import { Injectable } from '@nestjs/common';
import { openSeason, type LogRecord, type OpenSeason, type Season } from '@furrowmark/domain';
import type { EntityManager } from 'typeorm';
import { OperationScope } from '../database/index.ts';
import { readHead, type Head } from '../log/index.ts';
import { Mutex } from './mutex.ts';
import { project } from './project.ts';
import { readRecords } from './read-records.ts';

/** Records that all kept seasons have together; beyond it the ones not used for longest are let go. */
const mostKept = 400_000;

interface Kept {
  readonly mutex: Mutex;
  season: OpenSeason;
  /** In the order of the log. */
  records: LogRecord[];
}

/** An operation's season, held for one append: nobody else reads it until it is released. */
export interface Held {
  /** Brings the season up to `size`, adds the new records, writes what follows from them. */
  project(manager: EntityManager, size: number, records: readonly LogRecord[]): Promise<void>;
  /** `drop` where the transaction failed: the season may have taken what the database did not. */
  release(how: 'keep' | 'drop'): void;
}

/** What a reader gets: the season of everything committed, the log's head at that moment, and the records behind it. */
export interface Reading {
  readonly season: Season;
  readonly head: Head;
  readonly records: readonly LogRecord[];
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

  /**
   * Reads the season as committed now. `work` must not wait for anything: while it runs the season does not change.
   */
  async read<T>(operationId: string, work: (reading: Reading) => T): Promise<T> {
    const kept = this.#of(operationId);
    const leave = await kept.mutex.enter();
    try {
      const head = await this.scope.run(operationId, async (manager) => {
        const found = await readHead(manager, operationId);
        if (found === null) throw new Error(`the operation ${operationId} has no log`);
        await catchUp(kept, manager, operationId, found.size);
        return found;
      });
      return work({ season: kept.season, head, records: kept.records });
    } finally {
      leave();
      this.#letGo();
    }
  }

  async hold(operationId: string): Promise<Held> {
    const kept = this.#of(operationId);
    const leave = await kept.mutex.enter();
    let erased = false;
    return {
      project: async (manager, size, records) => {
        erased = records.some(({ type }) => type === 'person.erased');
        await catchUp(kept, manager, operationId, size);
        const { batches } = kept.season.add(records);
        for (const record of records) kept.records.push(record);
        await project(manager, operationId, kept.season, records, batches);
      },
      release: (how) => {
        // After an erasure nothing may remember the name.
        if (how === 'drop' || erased) forget(kept);
        leave();
        this.#letGo();
      },
    };
  }

  #of(operationId: string): Kept {
    const kept = this.#kept.get(operationId) ?? { mutex: new Mutex(), season: openSeason([]), records: [] };
    this.#kept.delete(operationId);
    this.#kept.set(operationId, kept);
    return kept;
  }

  #letGo(): void {
    let total = 0;
    for (const { records } of this.#kept.values()) total += records.length;
    for (const [operationId, kept] of this.#kept) {
      if (total <= mostKept || this.#kept.size === 1) return;
      if (kept.mutex.busy) continue;
      total -= kept.records.length;
      this.#kept.delete(operationId);
    }
  }
}

async function catchUp(kept: Kept, manager: EntityManager, operationId: string, size: number): Promise<void> {
  if (kept.records.length === size) return;
  // A smaller log than remembered: another database was put in its place.
  if (kept.records.length > size) forget(kept);
  const fresh = await readRecords(manager, operationId, kept.records.length, size);
  if (kept.records.length > 0 && !fresh.some(({ type }) => type === 'person.erased')) {
    kept.season.add(fresh);
    for (const record of fresh) kept.records.push(record);
    return;
  }
  const all = kept.records.length === 0 ? fresh : await readRecords(manager, operationId, 0, size);
  kept.season = openSeason(all);
  kept.records = all;
}

function forget(kept: Kept): void {
  kept.season = openSeason([]);
  kept.records = [];
}
