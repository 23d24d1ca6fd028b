import { Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import { v7 as uuidv7 } from 'uuid';
import { z } from 'zod';
import type { Member } from '../access/index.ts';
import { Clock } from '../clock.ts';
import { OperationScope } from '../database/index.ts';
import { notFound } from '../http/index.ts';
import { int8 } from '../log/index.ts';

const rows = z.array(
  z
    .object({
      witness_id: z.string(),
      address: z.string(),
      every_days: z.number(),
      next_at: z.date(),
      sent_at: z.date().nullable(),
      sent_size: int8.nullable(),
      failure: z.string().nullable(),
    })
    .transform((row) => ({
      witnessId: row.witness_id,
      address: row.address,
      everyDays: row.every_days,
      nextAt: row.next_at.toISOString(),
      sentAt: row.sent_at?.toISOString() ?? null,
      sentSize: row.sent_size,
      /** Why the last letter did not go out; null where it did. */
      failure: row.failure,
    })),
);
export type Witness = z.output<typeof rows>[number];

/** Whoever outside keeps checkpoints of a log: the certifier, a neighbour, one's own mailbox elsewhere. */
@Injectable()
export class Witnesses {
  constructor(
    private readonly scope: OperationScope,
    private readonly clock: Clock,
  ) {}

  list(operationId: string): Promise<Witness[]> {
    return this.scope.run(operationId, (manager) => witnessesOf(manager, operationId));
  }

  /** The first letter goes out with the next look at the clock, within a minute. */
  add({ operationId, accountId }: Member, address: string, everyDays: number): Promise<Witness> {
    return this.scope.run(operationId, async (manager) => {
      const [witnessId, now] = [uuidv7(), new Date(this.clock.now())];
      await manager.query(
        `INSERT INTO witness (operation_id, witness_id, address, every_days, added_by, added_at, next_at)
         VALUES ($1, $2, $3, $4, $5, $6, $6)`,
        [operationId, witnessId, address, everyDays, accountId, now],
      );
      await dueNow(manager, operationId, now);
      const added = (await witnessesOf(manager, operationId)).find((each) => each.witnessId === witnessId);
      if (added === undefined) throw new Error('the witness was not added');
      return added;
    });
  }

  async end(operationId: string, witnessId: string): Promise<void> {
    const ended = await this.scope.run(operationId, async (manager) => {
      const before = await witnessesOf(manager, operationId);
      await manager.query(
        'UPDATE witness SET ended_at = $3 WHERE operation_id = $1 AND witness_id = $2 AND ended_at IS NULL',
        [operationId, witnessId, new Date(this.clock.now())],
      );
      return before.some((each) => each.witnessId === witnessId);
    });
    if (!ended) throw notFound();
  }
}

export async function witnessesOf(manager: EntityManager, operationId: string): Promise<Witness[]> {
  return rows.parse(
    await manager.query(
      `SELECT witness_id, address, every_days, next_at, sent_at, sent_size, failure FROM witness
        WHERE operation_id = $1 AND ended_at IS NULL ORDER BY added_at, witness_id`,
      [operationId],
    ),
  );
}

async function dueNow(manager: EntityManager, operationId: string, now: Date): Promise<void> {
  await manager.query('UPDATE checkpoint_due SET due_at = least(due_at, $2) WHERE operation_id = $1', [
    operationId,
    now,
  ]);
}
