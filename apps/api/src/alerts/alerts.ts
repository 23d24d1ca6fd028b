import { Injectable, type OnModuleDestroy } from '@nestjs/common';
import { asOf, instantOf } from '@furrowmark/domain';
import { codeToSend } from '@furrowmark/rules';
import { DataSource } from 'typeorm';
import { z } from 'zod';
import { Post } from '../archive/index.ts';
import { Clock } from '../clock.ts';
import { OperationScope } from '../database/index.ts';
import { Deadlines, Seasons, Views } from '../views/index.ts';
import { choicesOf, type KeptChoice } from './choices.ts';
import { alertLetter } from './letter.ts';
import { bundlesFor, markSent, put, type Alert, type Bundle, type Now } from './outbox.ts';
import { ruleTitle } from './titles.ts';

const minute = 60_000;
/** After so long an operation is looked at again though nothing was recorded: a limit may have passed by the clock. */
const atLeast = 60 * minute;
/** A letter that did not go out is tried again after so long; so is the work of a process that died over it. */
const again = 5 * minute;
const due = z.array(z.object({ operation_id: z.string() }));
const claimed = z.tuple([z.array(z.unknown()), z.number()]);
const ids = z.array(z.object({ finding_id: z.string() }));
const next = z.array(z.object({ at: z.date().nullable() }));

/**
 * Tells by e-mail, once each, what fell due and what broke, whoever asked for it. First it is put down beside the log, in
 * the transaction that marks the deadline as announced; then it is sent; then marked as sent. A process that dies in
 * between sends the same letter again, with the same id, rather than none.
 */
@Injectable()
export class Alerts implements OnModuleDestroy {
  #timer: NodeJS.Timeout | null = null;
  #running: Promise<void> | null = null;

  constructor(
    private readonly dataSource: DataSource,
    private readonly scope: OperationScope,
    private readonly seasons: Seasons,
    private readonly deadlines: Deadlines,
    private readonly views: Views,
    private readonly post: Post,
    private readonly clock: Clock,
  ) {}

  /** Looks at the clock every minute from now on. Only the process that serves does, and only where a mail server was named. */
  start(): void {
    if (!this.post.possible) return;
    const look = (): void => {
      this.#running ??= this.look()
        .catch(warn)
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
  }

  /** Tells what is to be told now. One operation that fails does not keep the others waiting. */
  async look(): Promise<void> {
    const now = this.clock.now();
    const found = due.parse(
      await this.dataSource.query('SELECT operation_id FROM alert_due WHERE due_at <= $1 ORDER BY due_at', [
        new Date(now),
      ]),
    );
    for (const { operation_id: operationId } of found) await this.#serve(operationId, now).catch(warn);
  }

  async #serve(operationId: string, now: number): Promise<void> {
    const lease = new Date(now + again);
    if (!(await this.#claim(operationId, now, lease))) return;
    const choices = await this.scope.run(operationId, (manager) => choicesOf(manager, operationId));
    if (choices.length === 0) return this.#lookAgain(operationId, lease, now + atLeast);
    const stands = await this.#putDown(operationId, choices, now);
    const { operation, timeZone } = await this.seasons.read(operationId, ({ season }) => ({
      operation: season.operation === null ? '' : asOf(season.operation, now).name,
      timeZone: season.timeZone,
    }));
    let soonest = now + atLeast;
    for (const choice of choices) {
      const { bundles, held } = await this.scope.run(operationId, (manager) =>
        bundlesFor(manager, operationId, choice, { now, timeZone, stands }),
      );
      for (const bundle of bundles) {
        const gone = await this.#send(operationId, choice, bundle, { operation, timeZone }, now);
        if (!gone) soonest = Math.min(soonest, now + again);
      }
      // A few minutes after the quiet hours end is soon enough.
      if (held) soonest = Math.min(soonest, now + again);
    }
    return this.#lookAgain(operationId, lease, soonest);
  }

  /** What fell due and what broke, into the table, for everybody who asked; gives whether something stands now. */
  async #putDown(operationId: string, choices: readonly KeptChoice[], now: number): Promise<Now['stands']> {
    await this.deadlines.alertsDue(operationId, (manager, told) =>
      put(
        manager,
        operationId,
        choices,
        told.map(({ findingId, ruleId, about, dueAt, what }): Alert => {
          return { kind: 'due', findingId, ruleId, code: about.code, at: instantOf(dueAt), what };
        }),
        now,
      ),
    );
    const { findings } = await this.views.findings(operationId);
    const broken = findings.flatMap(({ findingId, ruleId, about, outcome, state, since }): Alert[] =>
      outcome === 'broken' && state === 'open' && since !== null
        ? [{ kind: 'broken', findingId, ruleId, code: codeToSend(about), at: instantOf(since), what: '' }]
        : [],
    );
    return this.scope.run(operationId, async (manager) => {
      await put(manager, operationId, choices, broken, now);
      const standing = ids.parse(
        await manager.query('SELECT finding_id FROM deadline WHERE operation_id = $1 AND standing', [operationId]),
      );
      const open = findings.filter((each) => each.standing && each.state === 'open');
      const all = new Set([...standing.map((row) => row.finding_id), ...open.map(({ findingId }) => findingId)]);
      return (findingId) => all.has(findingId);
    });
  }

  /** True once the mail server took it. */
  async #send(
    operationId: string,
    choice: KeptChoice,
    bundle: Bundle,
    of: { readonly operation: string; readonly timeZone: string },
    now: number,
  ): Promise<boolean> {
    const failure = await this.post.send(alertLetter({ choice, bundle, ...of, titleOf: ruleTitle })).then(
      () => null,
      (error: unknown) => (error instanceof Error ? error.message : String(error)).slice(0, 300),
    );
    const { accountId } = choice;
    await this.scope.run(operationId, (manager) =>
      failure === null
        ? markSent(manager, operationId, accountId, bundle.letterId, now)
        : manager.query('UPDATE alert_choice SET failure = $3 WHERE operation_id = $1 AND account_id = $2', [
            ...[operationId, accountId, failure],
          ]),
    );
    return failure === null;
  }

  /** True for the one process that moved the due time on; it stands there again should this one die. */
  #claim(operationId: string, now: number, lease: Date): Promise<boolean> {
    return this.scope.run(operationId, async (manager) => {
      const [, count] = claimed.parse(
        await manager.query(
          'UPDATE alert_due SET due_at = $3 WHERE operation_id = $1 AND due_at <= $2 RETURNING 1 AS one',
          [operationId, new Date(now), lease],
        ),
      );
      return count === 1;
    });
  }

  /** At the next deadline, or `soonest`; at once where something was recorded meanwhile (the lease is not there any more). */
  #lookAgain(operationId: string, lease: Date, soonest: number): Promise<void> {
    return this.scope.run(operationId, async (manager) => {
      const [first] = next.parse(
        await manager.query(
          'SELECT min(due_at) AS at FROM deadline WHERE operation_id = $1 AND standing AND alerted_at IS NULL',
          [operationId],
        ),
      );
      const at = Math.min(soonest, first?.at?.getTime() ?? Infinity);
      await manager.query('UPDATE alert_due SET due_at = $3 WHERE operation_id = $1 AND due_at = $2', [
        operationId,
        lease,
        new Date(at),
      ]);
    });
  }
}

const warn = (error: unknown): void =>
  process.emitWarning(error instanceof Error ? error.message : String(error), { code: 'FURROWMARK_ALERTS' });
