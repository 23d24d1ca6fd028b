import { Injectable } from '@nestjs/common';
import { z } from 'zod';
import { OperationScope } from '../database/index.ts';
import { int8, readHead } from '../log/index.ts';
import { Settler } from './settler.ts';

const time = z.date().nullable();
const rows = z.array(
  z.object({
    batch_id: z.string(),
    code: z.string(),
    kind: z.string(),
    phase: z.string(),
    from_at: time,
    to_at: time,
    as_of_seq: int8,
    facts: z.looseObject({
      vesselId: z.unknown(),
      volumeFilled: z.unknown(),
      brewHours: z.unknown(),
      holdHours: z.unknown(),
    }),
  }),
);

/** Which batches are asked for; `from` and `to` are milliseconds, `to` exclusive. */
export interface BatchQuery {
  readonly phase?: string | undefined;
  readonly from?: number | undefined;
  readonly to?: number | undefined;
  readonly after?: { readonly at: string; readonly id: string } | undefined;
  readonly limit: number;
}

/** One line of the list. */
export interface BatchLine {
  readonly batchId: string;
  readonly code: string;
  readonly kind: string;
  readonly phase: string;
  /** The first and the last thing that happened with it, RFC 3339 in UTC. */
  readonly from: string | null;
  readonly to: string | null;
}

/** The list of batches, from what is kept of each; what is stale is settled first. */
@Injectable()
export class BatchList {
  constructor(
    private readonly scope: OperationScope,
    private readonly settler: Settler,
  ) {}

  async list(operationId: string, query: BatchQuery) {
    await this.settle(operationId);
    return this.scope.run(operationId, async (manager) => {
      const head = await readHead(manager, operationId);
      const found = rows.parse(
        await manager.query(
          `SELECT batch_id, code, kind, phase, from_at, to_at, as_of_seq, facts FROM batch_facts
            WHERE operation_id = $1 AND ($2::text IS NULL OR phase = $2)
              AND ($3::timestamptz IS NULL OR to_at >= $3) AND ($4::timestamptz IS NULL OR from_at < $4)
              AND ($5::timestamptz IS NULL OR (coalesce(from_at, '-infinity'), batch_id) > ($5, $6::uuid))
            ORDER BY coalesce(from_at, '-infinity'), batch_id LIMIT $7`,
          [
            operationId,
            query.phase ?? null,
            query.from === undefined ? null : new Date(query.from),
            query.to === undefined ? null : new Date(query.to),
            query.after?.at ?? null,
            query.after?.id ?? null,
            query.limit + 1,
          ],
        ),
      );
      const page = found.slice(0, query.limit);
      const batches = page.map((row) => ({
        batchId: row.batch_id,
        code: row.code,
        kind: row.kind,
        phase: row.phase,
        from: row.from_at?.toISOString() ?? null,
        to: row.to_at?.toISOString() ?? null,
        vesselId: row.facts.vesselId,
        volumeFilled: row.facts.volumeFilled,
        brewHours: row.facts.brewHours,
        holdHours: row.facts.holdHours,
      }));
      return { batches, asOfSeq: (head?.size ?? 0) - 1, more: found.length > page.length };
    });
  }

  /** Brings up to date what is kept of batches; gives how many were stale. */
  settle(operationId: string): Promise<number> {
    return this.settler.settle(operationId);
  }
}
