import { Injectable, type OnModuleDestroy } from '@nestjs/common';
import { utcText, type Instant, type Season } from '@furrowmark/domain';
import { deadlinesOf, type Deadline } from '@furrowmark/rules';
import type { EntityManager } from 'typeorm';
import { z } from 'zod';
import { Clock } from '../clock.ts';
import { OperationScope } from '../database/index.ts';
import { Seasons } from './seasons.ts';

/** Milliseconds from a commit to the writing of deadlines: a tank's next records come in the meantime. */
const soon = 2_000;
/** A deadline that passed so long ago is not announced any more: it stands among the findings. */
const day = 86_400_000;

const row = z.object({
  finding_id: z.string(),
  due_at: z.date(),
  rule_id: z.string(),
  subject_kind: z.string(),
  subject_id: z.string(),
  subject_code: z.string(),
  what: z.string(),
  alerted_at: z.date().nullable(),
});
const rows = z.array(row);
const waiting = z.array(row.pick({ finding_id: true, due_at: true }));
/** What the driver gives for UPDATE … RETURNING: the rows, then their number. */
const updated = z.tuple([rows, z.number()]);
const members = Object.keys(row.shape).join(', ');

/** A deadline as it is kept: what is to be done by when, and when that was announced. */
export interface KeptDeadline {
  readonly findingId: string;
  readonly ruleId: string;
  readonly about: { readonly kind: string; readonly id: string; readonly code: string };
  readonly dueAt: string;
  readonly what: string;
  readonly alertedAt: string | null;
}

/**
 * Deadlines as a table, so that whatever wakes up by the clock need not judge seasons. They follow from records and clock;
 * only that one was announced is remembered, by finding and time, so that it is announced once.
 */
@Injectable()
export class Deadlines implements OnModuleDestroy {
  readonly #planned = new Map<string, NodeJS.Timeout>();
  readonly #running = new Set<Promise<unknown>>();
  #closed = false;

  constructor(
    private readonly scope: OperationScope,
    private readonly seasons: Seasons,
    private readonly clock: Clock,
  ) {}

  /** Writes the operation's deadlines in a moment, once. What fails now is done after the next append, or when asked for. */
  later(operationId: string): void {
    if (this.#closed || this.#planned.has(operationId)) return;
    const timer = setTimeout(() => {
      this.#planned.delete(operationId);
      const running = this.write(operationId)
        .then(() => this.#wake(operationId))
        .catch(() => undefined)
        .finally(() => this.#running.delete(running));
      this.#running.add(running);
    }, soon);
    timer.unref();
    this.#planned.set(operationId, timer);
  }

  /** Brings the table up to date with records and clock. What no longer stands goes, unless it was announced. */
  async write(operationId: string): Promise<void> {
    const now = this.clock.now();
    await this.seasons.withSeason(operationId, async (season, manager) => {
      const missed = waiting
        .parse(
          await manager.query(
            `SELECT finding_id, due_at FROM deadline
              WHERE operation_id = $1 AND standing AND alerted_at IS NULL AND due_at <= $2 AND due_at > $3`,
            [operationId, new Date(now), new Date(now - day)],
          ),
        )
        .map(({ finding_id: findingId, due_at: at }) => ({ findingId, at: at.getTime() }));
      const standing = deadlinesOf(season, now);
      await put(manager, operationId, [...standing, ...stillOwed(season, standing, missed)]);
    });
  }

  /** What stands, the earliest first. */
  async list(operationId: string): Promise<readonly KeptDeadline[]> {
    await this.write(operationId);
    return this.scope.run(operationId, async (manager) =>
      rows
        .parse(
          await manager.query(
            `SELECT ${members} FROM deadline WHERE operation_id = $1 AND standing ORDER BY due_at, finding_id`,
            [operationId],
          ),
        )
        .map(kept),
    );
  }

  /**
   * What has fallen due and was not announced yet; each is given once, whoever asks, however often. `put` writes it down for
   * telling in the transaction that marks it as announced: both happen, or neither.
   */
  async alertsDue(
    operationId: string,
    put?: (manager: EntityManager, due: readonly KeptDeadline[]) => Promise<void>,
  ): Promise<readonly KeptDeadline[]> {
    await this.write(operationId);
    const now = new Date(this.clock.now());
    return this.scope.run(operationId, async (manager) => {
      const [due] = updated.parse(
        await manager.query(
          `UPDATE deadline SET alerted_at = $2
            WHERE operation_id = $1 AND standing AND alerted_at IS NULL AND due_at <= $2 RETURNING ${members}`,
          [operationId, now],
        ),
      );
      const told = due.map(kept).sort((a, b) => (a.dueAt < b.dueAt ? -1 : 1));
      await put?.(manager, told);
      return told;
    });
  }

  /** Whoever tells people what is due looks at the operation with the next look at the clock: its records changed. */
  #wake(operationId: string): Promise<unknown> {
    const now = new Date(this.clock.now());
    return this.scope.run(operationId, (manager) =>
      manager.query('UPDATE alert_due SET due_at = $2 WHERE operation_id = $1 AND due_at > $2', [operationId, now]),
    );
  }

  async onModuleDestroy(): Promise<void> {
    this.#closed = true;
    for (const timer of this.#planned.values()) clearTimeout(timer);
    await Promise.all(this.#running);
  }
}

/**
 * Of deadlines whose time has passed unannounced those that, by all that is recorded now, were not met just before it. What
 * is missed turns into a finding; that its time came is told nevertheless.
 */
function stillOwed(
  season: Season,
  standing: readonly Deadline[],
  missed: readonly { readonly findingId: string; readonly at: Instant }[],
): readonly Deadline[] {
  const known = new Set(standing.map(({ findingId, at }) => `${findingId} ${at}`));
  return [...new Set(missed.map(({ at }) => at))].flatMap((time) => {
    const ids = new Set(missed.filter(({ at }) => at === time).map(({ findingId }) => findingId));
    return deadlinesOf(season, time - 1).filter(
      ({ findingId, at }) => at === time && ids.has(findingId) && !known.has(`${findingId} ${at}`),
    );
  });
}

const kept = (each: z.output<typeof row>): KeptDeadline => ({
  findingId: each.finding_id,
  ruleId: each.rule_id,
  about: { kind: each.subject_kind, id: each.subject_id, code: each.subject_code },
  dueAt: utcText(each.due_at.getTime()),
  what: each.what,
  alertedAt: each.alerted_at === null ? null : utcText(each.alerted_at.getTime()),
});

async function put(manager: EntityManager, operationId: string, deadlines: readonly Deadline[]): Promise<void> {
  const columns = [deadlines.map(({ findingId }) => findingId), deadlines.map(({ at }) => new Date(at))];
  await manager.query(
    `DELETE FROM deadline d
      WHERE d.operation_id = $1 AND d.alerted_at IS NULL
        AND NOT EXISTS (SELECT FROM unnest($2::uuid[], $3::timestamptz[]) AS g (id, at)
                         WHERE g.id = d.finding_id AND g.at = d.due_at)`,
    [operationId, ...columns],
  );
  await manager.query(
    `UPDATE deadline d SET standing = false
      WHERE d.operation_id = $1 AND d.standing
        AND NOT EXISTS (SELECT FROM unnest($2::uuid[], $3::timestamptz[]) AS g (id, at)
                         WHERE g.id = d.finding_id AND g.at = d.due_at)`,
    [operationId, ...columns],
  );
  await manager.query(
    `INSERT INTO deadline (operation_id, finding_id, due_at, rule_id, subject_kind, subject_id, subject_code, what, standing)
     SELECT $1, g.*, true FROM unnest($2::uuid[], $3::timestamptz[], $4::text[], $5::text[], $6::text[], $7::text[],
                                      $8::text[]) AS g
     ON CONFLICT (operation_id, finding_id, due_at) DO UPDATE
        SET standing = true, subject_code = EXCLUDED.subject_code, what = EXCLUDED.what`,
    [
      operationId,
      ...columns,
      deadlines.map(({ ruleId }) => ruleId),
      deadlines.map(({ about }) => about.kind),
      deadlines.map(({ about }) => about.id),
      deadlines.map(({ about }) => about.code),
      deadlines.map(({ what }) => what),
    ],
  );
}
