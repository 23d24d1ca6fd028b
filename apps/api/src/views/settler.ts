import { Injectable, type OnModuleDestroy } from '@nestjs/common';
import { z } from 'zod';
import { OperationScope } from '../database/index.ts';
import { Seasons } from './seasons.ts';
import { writeBatches } from './write-following.ts';

const staleRows = z.array(z.object({ id: z.string() }));

/** Batches in one transaction: few, so that an append waits for the season only a moment. */
const few = 20;

/** Milliseconds from a commit to the settling of what it left stale: a phone's next records may come first. */
const soon = 300;

/**
 * Writes anew what is kept of batches that records elsewhere may have changed. Never takes the head's lock; what is
 * marked again meanwhile stays marked.
 */
@Injectable()
export class Settler implements OnModuleDestroy {
  readonly #planned = new Map<string, NodeJS.Timeout>();
  readonly #running = new Set<Promise<unknown>>();
  #closed = false;

  constructor(
    private readonly scope: OperationScope,
    private readonly seasons: Seasons,
  ) {}

  /** Settles the operation in a moment, once. What fails now is settled when the list is read, or after the next append. */
  later(operationId: string): void {
    if (this.#closed || this.#planned.has(operationId)) return;
    const timer = setTimeout(() => {
      this.#planned.delete(operationId);
      const running = this.settle(operationId)
        .catch(() => undefined)
        .finally(() => this.#running.delete(running));
      this.#running.add(running);
    }, soon);
    timer.unref();
    this.#planned.set(operationId, timer);
  }

  /** Settles everything of the operation that is stale now; gives how many batches that were. */
  async settle(operationId: string): Promise<number> {
    let settled = 0;
    for (;;) {
      const ids = await this.#stale(operationId);
      if (ids.length === 0 || this.#closed) return settled;
      await this.seasons.withSeason(operationId, async (season, manager) => {
        await writeBatches(manager, operationId, season, ids);
        await manager.query(
          `DELETE FROM stale WHERE operation_id = $1 AND kind = 'batch' AND id = ANY($2::uuid[]) AND seq < $3`,
          [operationId, ids, season.size],
        );
      });
      settled += ids.length;
    }
  }

  async onModuleDestroy(): Promise<void> {
    this.#closed = true;
    for (const timer of this.#planned.values()) clearTimeout(timer);
    await Promise.all(this.#running);
  }

  #stale(operationId: string): Promise<string[]> {
    return this.scope.run(operationId, async (manager) => {
      const found = await manager.query(
        `SELECT id FROM stale WHERE operation_id = $1 AND kind = 'batch' ORDER BY id LIMIT $2`,
        [operationId, few],
      );
      return staleRows.parse(found).map(({ id }) => id);
    });
  }
}
