import { createHash } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { z } from 'zod';
import { Clock } from '../clock.ts';
import { ProblemAnswer } from '../http/index.ts';
import { AccountScope } from './account-scope.ts';

/** So many wrong ones in a row are taken before there is a wait. */
const free = 5;
const minute = 60_000;
const day = 24 * 60 * minute;

const taken = z.array(z.object({ failures: z.number() }));
const waiting = z.array(z.object({ locked_until: z.date() }));

/**
 * Counts who failed how often, for all processes of the service together. An attempt is counted before it is looked at,
 * and forgotten when it was right: many at once do not get more tries than one after the other. After the fifth wrong
 * one there is a wait of a minute, which doubles each time.
 */
@Injectable()
export class Attempts {
  readonly #line = new Map<string, Promise<void>>();

  constructor(
    private readonly accounts: AccountScope,
    private readonly clock: Clock,
  ) {}

  /**
   * One attempt, looked at by `look`, which gives null where it was wrong. 429 where the wait is not over. `what` may
   * name what does not exist: that is not to be told. Attempts at the same are looked at one after the other, so that
   * many right ones are not taken for guesses.
   */
  async attempt<T>(
    what: readonly string[],
    longestWaitMinutes: number,
    look: () => Promise<T | null>,
  ): Promise<T | null> {
    const key = keyOf(what);
    const name = key.toString('hex');
    const before = this.#line.get(name) ?? Promise.resolve();
    const mine = before.then(async () => {
      await this.#take(key, longestWaitMinutes);
      const found = await look();
      if (found !== null) await this.forget(what);
      return found;
    });
    const ended = mine.then(
      () => undefined,
      () => undefined,
    );
    this.#line.set(name, ended);
    try {
      return await mine;
    } finally {
      if (this.#line.get(name) === ended) this.#line.delete(name);
    }
  }

  async #take(key: Buffer, longestWaitMinutes: number): Promise<void> {
    const now = this.clock.now();
    await this.accounts.run({ attempt: key }, async (manager) => {
      const [counted] = taken.parse(
        await manager.query(
          `INSERT INTO attempt AS a VALUES ($1, 1, $2, NULL)
           ON CONFLICT (key) DO UPDATE
              SET failures = CASE WHEN a.last_at < $3 THEN 1 ELSE a.failures + 1 END, last_at = EXCLUDED.last_at,
                  locked_until = CASE WHEN a.last_at >= $3 AND a.failures + 1 >= $4
                    THEN EXCLUDED.last_at + make_interval(mins => least(power(2, least(a.failures + 1 - $4, 20)), $5)::int) END
            WHERE a.locked_until IS NULL OR a.locked_until <= EXCLUDED.last_at
           RETURNING failures`,
          [key, new Date(now), new Date(now - day), free, longestWaitMinutes],
        ),
      );
      if (counted !== undefined) return;
      const [locked] = waiting.parse(await manager.query('SELECT locked_until FROM attempt WHERE key = $1', [key]));
      const seconds = Math.max(1, Math.ceil(((locked?.locked_until.getTime() ?? now) - now) / 1000));
      const detail = `It was wrong too often. Wait ${Math.ceil(seconds / 60)} min, then try again.`;
      throw new ProblemAnswer('too-many-requests', detail, [], seconds);
    });
  }

  /** The attempt was right, or somebody entitled to it set the count back. */
  async forget(what: readonly string[]): Promise<void> {
    const key = keyOf(what);
    await this.accounts.run({ attempt: key }, (manager) => manager.query('DELETE FROM attempt WHERE key = $1', [key]));
  }
}

/** A hash: neither sign-in names nor accounts are kept with it. */
const keyOf = (what: readonly string[]): Buffer => createHash('sha256').update(JSON.stringify(what)).digest();
