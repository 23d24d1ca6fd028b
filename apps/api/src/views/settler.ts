import { Injectable, type OnModuleDestroy } from '@nestjs/common';
import { z } from 'zod';
import { OperationScope } from '../database/index.ts';
import { Seasons } from './seasons.ts';
import { writeBatches } from './write-following.ts';

const staleRows = z.array(z.object({ kind: z.string(), id: z.string() }));

/** Batches in one transaction: few, so that an append waits for the season only a moment. */
const few = 20;

/**
 * Milliseconds of quiet after which what was left stale is settled, and how long that waits at most while records keep
 * coming: a batch's next records may come first, and what is kept of it is written once for all of them.
 */
const quiet = 300;
const longest = 3_000;

/**
 * Writes anew what is kept of batches that records elsewhere may have changed. Never takes the head's lock; what is
 * marked again meanwhile stays marked.
 */
@Injectable()
export class Settler implements OnModuleDestroy {
  readonly #planned = new Map<string, { readonly timer: NodeJS.Timeout; readonly began: number }>();
  readonly #running = new Set<Promise<unknown>>();
  #closed = false;

  constructor(
    private readonly scope: OperationScope,
    private readonly seasons: Seasons,
  ) {}

  /** Settles the operation in a moment, once. What fails now is settled when the list is read, or after the next append. */
  later(operationId: string): void {
    if (this.#closed) return;
    const planned = this.#planned.get(operationId);
    if (planned !== undefined) {
      if (performance.now() - planned.began < longest) planned.timer.refresh();
      return;
    }
    const timer = setTimeout(() => {
      this.#planned.delete(operationId);
      const running = this.settle(operationId)
        .catch(() => undefined)
        .finally(() => this.#running.delete(running));
      this.#running.add(running);
    }, quiet);
    timer.unref();
    this.#planned.set(operationId, { timer, began: performance.now() });
  }

  /** Settles everything of the operation that is stale now; gives how many batches that were. */
  async settle(operationId: string): Promise<number> {
    let settled = 0;
    for (;;) {
      const stale = await this.#stale(operationId);
      if (stale.length === 0 || this.#closed) return settled;
      if (stale.some(({ kind }) => kind === 'log')) {
        await this.seasons.findStale(operationId);
        continue;
      }
      const ids = stale.map(({ id }) => id);
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
    for (const { timer } of this.#planned.values()) clearTimeout(timer);
    await Promise.all(this.#running);
  }

  /** What is stale, the note about a part of the log first. */
  #stale(operationId: string): Promise<{ kind: string; id: string }[]> {
    return this.scope.run(operationId, async (manager) => {
      const found = await manager.query(
        `SELECT kind, id FROM stale WHERE operation_id = $1 AND kind IN ('batch', 'log')
          ORDER BY kind DESC, id LIMIT $2`,
        [operationId, few],
      );
      return staleRows.parse(found);
    });
  }
}
