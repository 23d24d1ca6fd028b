import { Injectable } from '@nestjs/common';
import { z } from 'zod';
import { Access, Pins, role, type Member, type Role } from '../access/index.ts';
import { prepareOwn, Recording } from '../append/index.ts';
import { Clock } from '../clock.ts';
import { OperationScope } from '../database/index.ts';
import { notFound, ProblemAnswer } from '../http/index.ts';
import { v7 as uuidv7 } from 'uuid';

const rows = z.array(
  z
    .object({
      account_id: z.string(),
      name: z.string(),
      role,
      what: z.enum(['person', 'link', 'phone']),
      since: z.date(),
      ended_at: z.date().nullable(),
      pin: z.boolean(),
    })
    .transform((row) => ({
      accountId: row.account_id,
      name: row.name,
      role: row.role,
      what: row.what,
      since: row.since.toISOString(),
      until: row.ended_at?.toISOString() ?? null,
      pin: row.pin,
    })),
);

/** One who is or was a member: a person, a reading link, a shared phone. Records name the account. */
export type ListedMember = z.output<typeof rows>[number];

const current = z.array(z.object({ account_id: z.string(), role }));

/** Who is what in an operation. Every change is a record of its log. */
@Injectable()
export class Memberships {
  constructor(
    private readonly scope: OperationScope,
    private readonly recording: Recording,
    private readonly access: Access,
    private readonly pins: Pins,
    private readonly clock: Clock,
  ) {}

  /** Everybody who is or was a member: what somebody recorded keeps its name. */
  list(operationId: string): Promise<ListedMember[]> {
    return this.scope.run(operationId, async (manager) =>
      rows.parse(
        await manager.query(
          `SELECT m.account_id, a.name, m.role, m.what, m.since, m.ended_at, p.account_id IS NOT NULL AS pin
             FROM membership m JOIN account a ON a.account_id = m.account_id
             LEFT JOIN pin p ON p.operation_id = m.operation_id AND p.account_id = m.account_id
            WHERE m.operation_id = $1 ORDER BY m.since, m.account_id`,
          [operationId],
        ),
      ),
    );
  }

  /** A person who uses shared phones only: no sign-in name, a short PIN. */
  async addWithPin(
    by: Member,
    input: { readonly name: string; readonly role: Role; readonly pin: string },
  ): Promise<string> {
    if (input.role !== 'recorder' && input.role !== 'reviewer') {
      throw new ProblemAnswer('invalid-body', 'With a PIN alone somebody can be a recorder or a reviewer.', [
        { pointer: '/role', detail: 'must be recorder or reviewer where a PIN is given' },
      ]);
    }
    this.pins.assertFit(input.pin);
    const accountId = uuidv7();
    await this.recording.run(by.operationId, async (manager, enter) => {
      await this.access.addAccount(manager, accountId, input.name);
      await this.access.addMember(manager, { ...input, operationId: by.operationId, accountId });
      const data = { accessId: accountId, role: input.role, purpose: 'a person with a PIN on shared phones' };
      await enter(by.accountId, [prepareOwn({ type: 'access.granted', data }, this.clock.now())]);
    });
    await this.pins.set(by.operationId, accountId, input.pin);
    return accountId;
  }

  /** Changes what a member is. 404 for nobody of this operation, 409 where no manager would be left. */
  async changeRole(by: Member, accountId: string, next: Role): Promise<void> {
    await this.recording.run(by.operationId, async (manager, enter) => {
      const before = await this.#locked(manager, by.operationId);
      const own = before.find((each) => each.account_id === accountId);
      if (own === undefined) throw notFound();
      if (own.role === next) return;
      keepAManager(before, accountId, next);
      await this.access.addMember(manager, { operationId: by.operationId, accountId, role: next });
      const data = { accessId: accountId, role: next };
      await enter(by.accountId, [prepareOwn({ type: 'access.granted', data }, this.clock.now())]);
    });
  }

  /** Ends a membership, the person's PIN and what was issued for this operation; what the person recorded stays. */
  async withdraw(by: Member, accountId: string, reason?: string): Promise<void> {
    const now = this.clock.now();
    await this.recording.run(by.operationId, async (manager, enter) => {
      const before = await this.#locked(manager, by.operationId);
      if (!before.some((each) => each.account_id === accountId)) throw notFound();
      keepAManager(before, accountId, null);
      await manager.query('DELETE FROM pin WHERE operation_id = $1 AND account_id = $2', [by.operationId, accountId]);
      await manager.query('UPDATE membership SET ended_at = $3 WHERE operation_id = $1 AND account_id = $2', [
        by.operationId,
        accountId,
        new Date(now),
      ]);
      await manager.query(
        `UPDATE access_token SET withdrawn_at = $3
          WHERE scope_operation = $1 AND account_id = $2 AND withdrawn_at IS NULL`,
        [by.operationId, accountId, new Date(now)],
      );
      const data = { accessId: accountId, reason };
      await enter(by.accountId, [prepareOwn({ type: 'access.withdrawn', data }, now)]);
    });
  }

  /** Sets a member's PIN for the operation's shared phones. */
  async setPin(operationId: string, accountId: string, pin: string): Promise<void> {
    const found = (await this.list(operationId)).find((each) => each.accountId === accountId);
    if (found === undefined || found.until !== null || found.what !== 'person') throw notFound();
    await this.pins.set(operationId, accountId, pin);
  }

  /** Takes a member's PIN away, if there is one. 404 for nobody of this operation. */
  async removePin(operationId: string, accountId: string): Promise<void> {
    const found = (await this.list(operationId)).find((each) => each.accountId === accountId);
    if (found === undefined || found.until !== null) throw notFound();
    await this.pins.remove(operationId, accountId);
  }

  /** The persons who are members now, held until the transaction ends: two managers cannot withdraw each other at once. */
  async #locked(manager: Parameters<Access['addMember']>[0], operationId: string) {
    return current.parse(
      await manager.query(
        `SELECT account_id, role FROM membership
          WHERE operation_id = $1 AND ended_at IS NULL AND what = 'person' ORDER BY account_id FOR UPDATE`,
        [operationId],
      ),
    );
  }
}

function keepAManager(members: z.output<typeof current>, accountId: string, next: Role | null): void {
  const left = members.some((each) => each.role === 'manager' && each.account_id !== accountId);
  if (left || next === 'manager') return;
  throw new ProblemAnswer('conflict', 'The operation would be left without a manager. Name another one first.');
}
