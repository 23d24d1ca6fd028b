import { Injectable } from '@nestjs/common';
import { openSeason } from '@furrowmark/domain';
import { outcomesThatDiffer, outcomesToKeep, type Difference, type KeptOutcomes as Kept } from '@furrowmark/rules';
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
    outcomes: z.record(
      z.string(),
      z.object({
        revision: z.number(),
        verdicts: z.object({ met: ids, caution: ids, broken: ids, due: ids, unknown: ids, notApplicable: ids }),
      }),
    ),
  }),
);

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
    const now = this.clock.now();
    return this.seasons.withSeason(operationId, async (season, manager) => {
      const kept = outcomesToKeep(season, now);
      await manager.query(
        `INSERT INTO outcomes_kept (operation_id, size, judged_at, outcomes) VALUES ($1, $2, $3, $4)
         ON CONFLICT (operation_id) DO UPDATE
            SET size = EXCLUDED.size, judged_at = EXCLUDED.judged_at, outcomes = EXCLUDED.outcomes`,
        [operationId, season.size, new Date(now), JSON.stringify(kept)],
      );
      return count(kept);
    });
  }

  /** Judges the records of then by the clock of then, and compares; null where nothing was kept. */
  compare(operationId: string): Promise<Compared | null> {
    return this.scope.run(operationId, async (manager) => {
      const [found] = rows.parse(
        await manager.query('SELECT size, judged_at, outcomes FROM outcomes_kept WHERE operation_id = $1', [
          operationId,
        ]),
      );
      if (found === undefined) return null;
      const { size, judged_at: judgedAt, outcomes } = found;
      const season = openSeason(await readRecords(manager, operationId, 0, size));
      const differences = outcomesThatDiffer(season, judgedAt.getTime(), outcomes);
      return { size, judgedAt, outcomes: count(outcomes), differences };
    });
  }
}

const count = (kept: Kept): number =>
  Object.values(kept)
    .flatMap(({ verdicts }) => Object.values(verdicts))
    .reduce((sum, found) => sum + (found?.length ?? 0), 0);
