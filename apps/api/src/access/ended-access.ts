import { Injectable, type OnModuleDestroy } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { z } from 'zod';

const hour = 3_600_000;
const removed = z.tuple([z.object({ removed: z.number() })]);

/**
 * Tokens, sessions and invitations that stopped opening anything thirty days ago are removed, once an hour; so are
 * counts of failed sign-ins, two days after the last. The database decides what is that old. Several processes may do it at once.
 */
@Injectable()
export class EndedAccess implements OnModuleDestroy {
  #timer: NodeJS.Timeout | null = null;
  #running: Promise<void> | null = null;

  constructor(private readonly dataSource: DataSource) {}

  /** Looks every hour from now on. Only the process that serves does. */
  start(): void {
    const look = (): void => {
      this.#running ??= this.purge()
        .then(() => undefined)
        .catch((error: unknown) => process.emitWarning(String(error), { code: 'FURROWMARK_ENDED_ACCESS' }))
        .finally(() => (this.#running = null));
    };
    this.#timer = setInterval(look, hour).unref();
    look();
  }

  onModuleDestroy(): Promise<void> {
    return this.close();
  }

  /** Looks no more, once what it is at is done. */
  async close(): Promise<void> {
    if (this.#timer !== null) clearInterval(this.#timer);
    await this.#running;
  }

  /** Gives how many rows were removed. */
  async purge(): Promise<number> {
    const [row] = removed.parse(await this.dataSource.query('SELECT purge_ended_access() AS removed'));
    return row.removed;
  }
}
