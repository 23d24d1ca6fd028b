import { Injectable } from '@nestjs/common';
import { openSeason, type Season } from '@furrowmark/domain';
import {
  outcomesThatDiffer,
  outcomesToKeep,
  ruleRevisions,
  rulesThatDiffer,
  type Difference,
  type KeptOutcomes as Kept,
} from '@furrowmark/rules';
import type { EntityManager } from 'typeorm';
import { z } from 'zod';
import { Clock } from '../clock.ts';
import { OperationScope } from '../database/index.ts';
import { readRecords } from './read-records.ts';
import { Seasons } from './seasons.ts';

const ids = z.array(z.string()).optional();
const rows = z.array(
  z.object({
    size: z.coerce.number(),
    judged_at: z.date(),
    revisions: z.record(z.string(), z.number()),
    outcomes: z.record(
      z.string(),
      z.object({
        revision: z.number(),
        verdicts: z.object({ met: ids, caution: ids, broken: ids, due: ids, unknown: ids, notApplicable: ids }),
      }),
    ),
  }),
);
type Row = z.output<typeof rows>[number];

/** Kept outcomes of the last day need not be kept anew. */
const day = 86_400_000;

/** What another version of the program judged otherwise. */
export interface Compared {
  readonly size: number;
  readonly judgedAt: Date;
  readonly outcomes: number;
  readonly differences: readonly Difference[];
}

/**
 * The outcomes of every rule as this program last judged them, kept for the next version of it: before an upgraded program
 * is used, it can say what it judges otherwise, and by which rules.
 */
@Injectable()
export class KeptOutcomes {
  constructor(
    private readonly scope: OperationScope,
    private readonly seasons: Seasons,
    private readonly clock: Clock,
  ) {}

  /** Keeps the outcomes of now in place of those kept before; gives how many there are. */
  async keep(operationId: string): Promise<number> {
    return this.seasons.withSeason(operationId, (season, manager) => this.#put(operationId, season, manager));
  }

  async #put(operationId: string, season: Season, manager: EntityManager): Promise<number> {
    const now = this.clock.now();
    const kept = outcomesToKeep(season, now);
    await manager.query(
      `INSERT INTO outcomes_kept (operation_id, size, judged_at, outcomes, revisions) VALUES ($1, $2, $3, $4, $5)
       ON CONFLICT (operation_id) DO UPDATE
          SET size = EXCLUDED.size, judged_at = EXCLUDED.judged_at, outcomes = EXCLUDED.outcomes,
              revisions = EXCLUDED.revisions`,
      [operationId, season.size, new Date(now), JSON.stringify(kept), JSON.stringify(ruleRevisions)],
    );
    return count(kept);
  }

  /** Judges the records of then by the clock of then, and compares; null where nothing was kept. */
  compare(operationId: string): Promise<Compared | null> {
    return this.scope.run(operationId, async (manager) => {
      const [found] = rows.parse(await manager.query(kept, [operationId]));
      return found === undefined ? null : compared(manager, operationId, found);
    });
  }

  /**
   * Where the rules are others than those of the kept outcomes: writes down what differs and keeps the outcomes anew, in one
   * transaction, so that it happens once, whoever else does it at the same time. Else keeps what is older than a day anew.
   */
  async follow(operationId: string): Promise<'differs' | 'kept' | 'same'> {
    return this.seasons.withSeason(operationId, async (season, manager) => {
      const [found] = rows.parse(await manager.query(`${kept} FOR UPDATE`, [operationId]));
      if (found === undefined) {
        await this.#put(operationId, season, manager);
        return 'kept';
      }
      const revisions = rulesThatDiffer(revisionsOf(found));
      if (Object.keys(revisions).length > 0) {
        const { differences, outcomes, size, judgedAt } = await compared(manager, operationId, found);
        await manager.query(
          `INSERT INTO rule_upgrade (operation_id, found_at, size, judged_at, outcomes, revisions, differences)
           VALUES ($1, $2, $3, $4, $5, $6, $7)`,
          [
            ...[operationId, new Date(this.clock.now()), size, judgedAt, outcomes],
            ...[JSON.stringify(revisions), JSON.stringify(differences)],
          ],
        );
        await this.#put(operationId, season, manager);
        return 'differs';
      }
      if (found.size === season.size || this.clock.now() - found.judged_at.getTime() < day) return 'same';
      await this.#put(operationId, season, manager);
      return 'kept';
    });
  }
}

const kept = 'SELECT size, judged_at, revisions, outcomes FROM outcomes_kept WHERE operation_id = $1';

/** By rule; of outcomes that were kept without, those of the rules that said anything, and the others as they are. */
function revisionsOf({ revisions, outcomes }: Row): Readonly<Record<string, number>> {
  if (Object.keys(revisions).length > 0) return revisions;
  const told = Object.entries(outcomes).map(([ruleId, { revision }]) => [ruleId, revision] as const);
  return { ...ruleRevisions, ...Object.fromEntries(told) };
}

async function compared(manager: EntityManager, operationId: string, found: Row): Promise<Compared> {
  const { size, judged_at: judgedAt, outcomes } = found;
  const season = openSeason(await readRecords(manager, operationId, 0, size));
  const differences = outcomesThatDiffer(season, judgedAt.getTime(), outcomes);
  return { size, judgedAt, outcomes: count(outcomes), differences };
}

const count = (of: Kept): number =>
  Object.values(of)
    .flatMap(({ verdicts }) => Object.values(verdicts))
    .reduce((sum, found) => sum + (found?.length ?? 0), 0);
