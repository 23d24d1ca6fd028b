import { Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import { z } from 'zod';
import type { Member } from '../access/index.ts';
import { Clock } from '../clock.ts';
import { OperationScope } from '../database/index.ts';
import type { QuietHours } from './quiet.ts';

/** What somebody may be told: what is due at tanks, what the office owes, and what broke a limit. */
export const told = z.enum(['tank', 'office', 'broken']);
export type Told = z.infer<typeof told>;

const hour = z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'must be a time of day such as 21:00');
export const alertChoice = z.strictObject({
  /** An e-mail address. It is kept beside the log, never in it. */
  address: z.email().max(254),
  tells: z.array(told).min(1).max(3),
  /** Between these times of the operation's zone only what is about air and oxygen is sent. */
  quiet: z.strictObject({ from: hour, until: hour }).nullable().default({ from: '21:00', until: '05:30' }),
  language: z.enum(['en', 'es']).default('en'),
});
export type AlertChoice = z.output<typeof alertChoice>;

const rows = z.array(
  z
    .object({
      account_id: z.string(),
      address: z.string(),
      tells: z.array(told),
      quiet_from: z.string().nullable(),
      quiet_until: z.string().nullable(),
      language: z.enum(['en', 'es']),
      since: z.date(),
      failure: z.string().nullable(),
    })
    .transform((row) => ({
      accountId: row.account_id,
      address: row.address,
      tells: row.tells,
      quiet:
        row.quiet_from === null || row.quiet_until === null
          ? null
          : ({ from: row.quiet_from, until: row.quiet_until } satisfies QuietHours),
      language: row.language,
      since: row.since,
      /** Why the last letter did not go out; null where it did. */
      failure: row.failure,
    })),
);
export type KeptChoice = z.output<typeof rows>[number];

const columns = 'c.account_id, c.address, c.tells, c.quiet_from, c.quiet_until, c.language, c.since, c.failure';

/** What each person of an operation wants to be told by e-mail. Nobody is told anything who did not ask for it. */
@Injectable()
export class AlertChoices {
  constructor(
    private readonly scope: OperationScope,
    private readonly clock: Clock,
  ) {}

  async of({ operationId, accountId }: Member): Promise<KeptChoice | null> {
    const all = await this.scope.run(operationId, (manager) => choicesOf(manager, operationId));
    return all.find((each) => each.accountId === accountId) ?? null;
  }

  async set(
    { operationId, accountId }: Member,
    { address, tells, quiet, language }: AlertChoice,
  ): Promise<KeptChoice | null> {
    const now = new Date(this.clock.now());
    return this.scope.run(operationId, async (manager) => {
      await manager.query(
        `INSERT INTO alert_choice (operation_id, account_id, address, tells, quiet_from, quiet_until, language, since)
         VALUES ($1, $2, $3, $4, $5, $6, $7, $8)
         ON CONFLICT (operation_id, account_id) DO UPDATE
            SET address = $3, tells = $4, quiet_from = $5, quiet_until = $6, language = $7, failure = NULL`,
        [operationId, accountId, address, [...new Set(tells)], quiet?.from, quiet?.until, language, now],
      );
      await manager.query(
        `INSERT INTO alert_due (operation_id, due_at) VALUES ($1, $2)
         ON CONFLICT (operation_id) DO UPDATE SET due_at = least(alert_due.due_at, $2)`,
        [operationId, now],
      );
      return (await choicesOf(manager, operationId)).find((each) => each.accountId === accountId) ?? null;
    });
  }

  /** The address goes, and with it what waited for it. */
  async end({ operationId, accountId }: Member): Promise<void> {
    await this.scope.run(operationId, async (manager) => {
      for (const table of ['alert', 'alert_choice'])
        await manager.query(`DELETE FROM ${table} WHERE operation_id = $1 AND account_id = $2`, [
          operationId,
          accountId,
        ]);
    });
  }
}

/** The choices of everybody who is still a member. */
export async function choicesOf(manager: EntityManager, operationId: string): Promise<KeptChoice[]> {
  return rows.parse(
    await manager.query(
      `SELECT ${columns} FROM alert_choice c
         JOIN membership m ON m.operation_id = c.operation_id AND m.account_id = c.account_id AND m.ended_at IS NULL
        WHERE c.operation_id = $1 ORDER BY c.account_id`,
      [operationId],
    ),
  );
}
