import { Injectable, type OnModuleDestroy } from '@nestjs/common';
import { z } from 'zod';
import { isConnectionLost, OperationScope, prepared } from '../database/index.ts';
import { int8 } from '../log/index.ts';
import { Seasons } from './seasons.ts';
import { forgetUnfollowed, markStale, unfollowedFrom } from './unfollowed.ts';
import { writeBatches, writeDescription } from './write-batches.ts';

const staleRows = z.array(z.object({ kind: z.string(), id: z.string(), size: int8 }));

/** Batches in one transaction: few, so that who reads the season waits only a moment. */
const few = 20;

/**
 * Milliseconds of quiet after which what was left stale is settled, and how long that waits at most while records keep
 * coming: a batch's next records may come first, and what is kept of it is written once for all of them.
 */
const quiet = 300;
const longest = 3_000;

/**
 * Writes what follows from records a moment after their commit: an append only notes from which entry on nothing was
 * followed. Never takes the head's lock; what is noted again meanwhile stays noted.
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
        .catch((error: unknown) => {
          // A defect in the folding keeps no record out of the log; whoever runs the service hears of it.
          if (!this.#closed && !isConnectionLost(error))
            process.emitWarning(error instanceof Error ? error : String(error), { code: 'FURROWMARK_FOLD' });
        })
        .finally(() => this.#running.delete(running));
      this.#running.add(running);
    }, quiet);
    timer.unref();
    this.#planned.set(operationId, { timer, began: performance.now() });
  }

  /** Settles everything of the operation that is stale now, not what is recorded meanwhile; gives how many batches that were. */
  async settle(operationId: string): Promise<number> {
    let stale = await this.#stale(operationId, null);
    const size = stale[0]?.size ?? 0;
    let settled = 0;
    for (; stale.length > 0 && !this.#closed; stale = await this.#stale(operationId, size)) {
      const ids = stale.map(({ id }) => id);
      settled += await (stale.some(({ kind }) => kind === 'log')
        ? this.#follow(operationId)
        : this.#writeAnew(operationId, ids));
    }
    return settled;
  }

  /**
   * Writes what follows from entries of which it is only noted that nothing was followed; gives how many batches were
   * written. Of many it is only noted that they are stale.
   */
  async #follow(operationId: string): Promise<number> {
    const written = await this.seasons.withChanges(operationId, unfollowedFrom, async (changed, season, manager) => {
      const many = changed.length > few;
      await (many ? markStale : writeBatches)(manager, operationId, season, changed);
      await writeDescription(manager, operationId, season);
      await forgetUnfollowed(manager, operationId, season.size);
      return many ? 0 : changed.length;
    });
    return written ?? 0;
  }

  async #writeAnew(operationId: string, ids: readonly string[]): Promise<number> {
    await this.seasons.withSeason(operationId, async (season, manager) => {
      await writeBatches(manager, operationId, season, ids);
      await manager.query(
        `DELETE FROM stale WHERE operation_id = $1 AND kind = 'batch' AND id = ANY($2::uuid[]) AND seq < $3`,
        [operationId, ids, season.size],
      );
    });
    return ids.length;
  }

  async onModuleDestroy(): Promise<void> {
    this.#closed = true;
    for (const { timer } of this.#planned.values()) clearTimeout(timer);
    await Promise.all(this.#running);
  }

  /** What is stale in a log of that size (null: as it is now), the note about a part of the log first. */
  #stale(operationId: string, size: number | null): Promise<z.output<typeof staleRows>> {
    return this.scope.run(operationId, async (manager) => {
      const found = await prepared(
        manager,
        `SELECT kind, id, size FROM stale JOIN log_head USING (operation_id)
          WHERE operation_id = $1 AND (kind = 'batch' OR kind = 'log' AND ($2::bigint IS NULL OR since < $2))
          ORDER BY kind DESC, id LIMIT $3`,
        [operationId, size, few],
      );
      return staleRows.parse(found);
    });
  }
}
