import { Injectable } from '@nestjs/common';
import { z } from 'zod';
import { reachParameters, withinReach, type Reach } from '../access/index.ts';
import { OperationScope } from '../database/index.ts';
import { int8, readHead } from '../log/index.ts';
import { openedEntries } from './read-records.ts';

const rows = z.array(z.object({ seq: int8, bytes: z.instanceof(Buffer) }));

const unbounded = { start: -Infinity, end: Infinity };

/** Which records are asked for. */
export interface RecordQuery {
  readonly after?: number | undefined;
  readonly about?: string | undefined;
  readonly type?: readonly string[] | undefined;
  readonly limit: number;
  /** Only what somebody may read whose access is limited to a time. */
  readonly within?: Reach | undefined;
}

/** Pages of the log, as recorded: nothing amended, nothing left out; personal values open where not erased. */
@Injectable()
export class RecordList {
  constructor(private readonly scope: OperationScope) {}

  list(operationId: string, query: RecordQuery): Promise<{ records: object[]; asOfSeq: number; next: string | null }> {
    return this.scope.run(operationId, async (manager) => {
      const head = await readHead(manager, operationId);
      const found = rows.parse(
        await manager.query(
          `SELECT e.seq, e.bytes FROM log_entry e
            WHERE e.operation_id = $1 AND e.seq > $2
              AND ($3::uuid IS NULL OR e.record_id = $3 OR EXISTS (
                    SELECT FROM mention m WHERE m.operation_id = $1 AND m.subject_id = $3 AND m.seq = e.seq))
              AND ($4::text[] IS NULL OR e.type = ANY($4))
              AND ${withinReach('e', 6)}
            ORDER BY e.seq LIMIT $5`,
          [
            operationId,
            query.after ?? -1,
            query.about ?? null,
            query.type ?? null,
            query.limit + 1,
            ...reachParameters(query.within ?? unbounded),
          ],
        ),
      );
      const page = found.slice(0, query.limit);
      const records = await openedEntries(
        manager,
        operationId,
        page.map(({ bytes }) => bytes),
      );
      const last = page.at(-1);
      const next = found.length > page.length && last !== undefined ? String(last.seq) : null;
      return { records, asOfSeq: (head?.size ?? 0) - 1, next };
    });
  }
}
