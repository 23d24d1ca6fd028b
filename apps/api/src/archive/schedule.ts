import { Injectable, type OnModuleDestroy } from '@nestjs/common';
import { verifierKeyText } from '@furrowmark/log';
import type { EntityManager } from 'typeorm';
import { DataSource } from 'typeorm';
import { z } from 'zod';
import { Clock } from '../clock.ts';
import { OperationScope } from '../database/index.ts';
import { checkpointIn, keepCheckpoint, readHead, Signing } from '../log/index.ts';
import { letterOf } from './letter.ts';
import { Post } from './mail.ts';
import { witnessesOf, type Witness } from './witnesses.ts';

const day = 86_400_000;
const minute = 60_000;
/** A letter that did not go out is tried again after so long. */
const again = 15 * minute;
const due = z.array(z.object({ operation_id: z.string() }));
const claimed = z.tuple([z.array(z.unknown()), z.number()]);
const names = z.array(z.object({ name: z.string() }));

interface Work {
  readonly note: string;
  readonly key: string;
  readonly operation: string;
  readonly witnesses: readonly Witness[];
}

/**
 * Signs a checkpoint of every log once a day and keeps it, and sends it to whoever outside wants one. Several processes may
 * look at the clock at the same time: who moves the due time does the work.
 */
@Injectable()
export class Schedule implements OnModuleDestroy {
  #timer: NodeJS.Timeout | null = null;
  #running: Promise<void> | null = null;

  constructor(
    private readonly dataSource: DataSource,
    private readonly scope: OperationScope,
    private readonly signing: Signing,
    private readonly post: Post,
    private readonly clock: Clock,
  ) {}

  /** Looks at the clock every minute from now on. Only the process that serves does. */
  start(): void {
    const look = (): void => {
      this.#running ??= this.look()
        .catch((error: unknown) => process.emitWarning(String(error), { code: 'FURROWMARK_SCHEDULE' }))
        .finally(() => (this.#running = null));
    };
    this.#timer = setInterval(look, minute).unref();
  }

  onModuleDestroy(): Promise<void> {
    return this.close();
  }

  /** Looks no more, once what it is at is done. */
  async close(): Promise<void> {
    if (this.#timer !== null) clearInterval(this.#timer);
    await this.#running;
    this.post.close();
  }

  /** Does what is due now. One log that cannot be signed does not keep the others waiting. */
  async look(): Promise<void> {
    const now = this.clock.now();
    const found = due.parse(
      await this.dataSource.query('SELECT operation_id FROM checkpoint_due WHERE due_at <= $1 ORDER BY due_at', [
        new Date(now),
      ]),
    );
    for (const { operation_id: operationId } of found) {
      await this.#serve(operationId, now).catch((error: unknown) =>
        process.emitWarning(`${operationId}: ${error instanceof Error ? error.message : String(error)}`, {
          code: 'FURROWMARK_SCHEDULE',
        }),
      );
    }
  }

  async #serve(operationId: string, now: number): Promise<void> {
    if (!(await this.#claim(operationId, now))) return;
    const work = await this.scope.run(operationId, (manager) => this.#sign(manager, operationId, now));
    if (work === null) return;
    let next = now + day;
    for (const witness of work.witnesses) {
      const at = Date.parse(witness.nextAt);
      next = Math.min(next, at <= now ? await this.#send(operationId, witness, work, now) : at);
    }
    await this.scope.run(operationId, (manager) =>
      manager.query('UPDATE checkpoint_due SET due_at = $2 WHERE operation_id = $1', [operationId, new Date(next)]),
    );
  }

  /** True for the one process that moved the due time on; it stands there again should this one die. */
  #claim(operationId: string, now: number): Promise<boolean> {
    return this.scope.run(operationId, async (manager) => {
      const [, count] = claimed.parse(
        await manager.query(
          'UPDATE checkpoint_due SET due_at = $3 WHERE operation_id = $1 AND due_at <= $2 RETURNING 1 AS one',
          [operationId, new Date(now), new Date(now + again)],
        ),
      );
      return count === 1;
    });
  }

  async #sign(manager: EntityManager, operationId: string, now: number): Promise<Work | null> {
    const head = await readHead(manager, operationId);
    if (head === null || head.size === 0 || head.readOnly) return null;
    const note = await this.signing.sign(manager, operationId, head);
    const { key } = await this.signing.signer(manager, operationId);
    const { size } = checkpointIn(note);
    await keepCheckpoint(manager, operationId, { size, keyId: key.keyId, note, why: 'schedule' }, now);
    const [operation] = names.parse(
      await manager.query('SELECT name FROM operation WHERE operation_id = $1', [operationId]),
    );
    const witnesses = await witnessesOf(manager, operationId);
    return { note, key: verifierKeyText(key), operation: operation?.name ?? '', witnesses };
  }

  /** Sends one letter; gives when to look at this witness again. */
  async #send(operationId: string, witness: Witness, { note, key, operation }: Work, now: number): Promise<number> {
    const { size } = checkpointIn(note);
    const failure = await this.post
      .send(letterOf({ to: witness.address, operation, operationId, note, key, now }))
      .then(
        () => null,
        (error: unknown) => (error instanceof Error ? error.message : String(error)).slice(0, 300),
      );
    const next = failure === null ? now + witness.everyDays * day : now + again;
    await this.scope.run(operationId, (manager) =>
      failure === null
        ? manager.query(
            `UPDATE witness SET next_at = $3, sent_at = $4, sent_size = $5, failure = NULL
              WHERE operation_id = $1 AND witness_id = $2`,
            [operationId, witness.witnessId, new Date(next), new Date(now), size],
          )
        : manager.query('UPDATE witness SET next_at = $3, failure = $4 WHERE operation_id = $1 AND witness_id = $2', [
            ...[operationId, witness.witnessId, new Date(next), failure],
          ]),
    );
    return next;
  }
}
