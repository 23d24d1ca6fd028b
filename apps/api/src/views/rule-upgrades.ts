import { Injectable, type OnModuleDestroy } from '@nestjs/common';
import { utcText } from '@furrowmark/domain';
import { DataSource } from 'typeorm';
import { z } from 'zod';
import { OperationScope } from '../database/index.ts';
import { KeptOutcomes } from './kept-outcomes.ts';

/** First a service answers; what differs is looked for afterwards, and once a day from then on. */
const soon = 10_000;
const day = 86_400_000;

const operations = z.array(z.object({ operation_id: z.string() }));
const revision = z.number().nullable();
const difference = z.object({
  ruleId: z.string(),
  revision: z.object({ before: revision, after: revision }),
  findingId: z.string(),
  about: z.object({ kind: z.string(), id: z.string(), code: z.string() }).nullable(),
  before: z.string(),
  after: z.string(),
});
const rows = z.array(
  z.object({
    found_at: z.date(),
    size: z.coerce.number(),
    judged_at: z.date(),
    outcomes: z.number(),
    revisions: z.record(z.string(), z.object({ before: revision, after: revision })),
    differences: z.array(difference),
  }),
);

/** What a program with other rules judged otherwise when it first started. */
export interface RuleUpgrade {
  readonly foundAt: string;
  /** The log's size and the clock that both versions judged by. */
  readonly size: number;
  readonly judgedAt: string;
  /** How many outcomes were compared. */
  readonly outcomes: number;
  readonly revisions: Readonly<Record<string, { readonly before: number | null; readonly after: number | null }>>;
  readonly differences: readonly z.output<typeof difference>[];
}

/** Looks, after a start, whether the rules are others than they were, and writes down once what that changes. */
@Injectable()
export class RuleUpgrades implements OnModuleDestroy {
  #timer: NodeJS.Timeout | null = null;
  #running: Promise<void> | null = null;
  #closed = false;

  constructor(
    private readonly dataSource: DataSource,
    private readonly scope: OperationScope,
    private readonly kept: KeptOutcomes,
  ) {}

  /** Looks in a moment, and every day. Only the process that serves does. */
  start(): void {
    const look = (): void => {
      this.#running ??= this.look()
        .catch((error: unknown) => process.emitWarning(String(error), { code: 'FURROWMARK_RULE_UPGRADE' }))
        .finally(() => (this.#running = null));
      this.#timer = setTimeout(look, day).unref();
    };
    this.#timer = setTimeout(look, soon).unref();
  }

  onModuleDestroy(): Promise<void> {
    return this.close();
  }

  /** Looks no more, once the operation that it is at is done. */
  async close(): Promise<void> {
    this.#closed = true;
    if (this.#timer !== null) clearTimeout(this.#timer);
    await this.#running;
  }

  /** Every operation, one after the other. One that fails does not keep the others waiting. */
  async look(): Promise<void> {
    for (const { operation_id: operationId } of operations.parse(
      await this.dataSource.query('SELECT operation_id FROM checkpoint_due ORDER BY operation_id'),
    )) {
      if (this.#closed) return;
      await this.kept.follow(operationId).catch((error: unknown) =>
        process.emitWarning(`${operationId}: ${error instanceof Error ? error.message : String(error)}`, {
          code: 'FURROWMARK_RULE_UPGRADE',
        }),
      );
    }
  }

  /** What was written down, the latest first. */
  list(operationId: string): Promise<readonly RuleUpgrade[]> {
    return this.scope.run(operationId, async (manager) =>
      rows
        .parse(
          await manager.query(
            `SELECT found_at, size, judged_at, outcomes, revisions, differences FROM rule_upgrade
              WHERE operation_id = $1 ORDER BY found_at DESC`,
            [operationId],
          ),
        )
        .map(({ found_at: found, size, judged_at: judged, outcomes, revisions, differences }) => ({
          ...{ foundAt: utcText(found.getTime()), size, judgedAt: utcText(judged.getTime()) },
          ...{ outcomes, revisions, differences },
        })),
    );
  }
}
