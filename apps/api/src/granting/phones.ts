import { Injectable } from '@nestjs/common';
import { v7 as uuidv7 } from 'uuid';
import { z } from 'zod';
import { Access, type Member } from '../access/index.ts';
import { prepareOwn, Recording } from '../append/index.ts';
import { Clock } from '../clock.ts';
import { OperationScope } from '../database/index.ts';
import { notFound } from '../http/index.ts';

/** A phone's token lives ninety days from its last use. */
export const phoneDays = 90;

const rows = z.array(
  z
    .object({
      token_id: z.string(),
      account_id: z.string(),
      label: z.string(),
      created_at: z.date(),
      expires_at: z.date(),
      last_used_at: z.date().nullable(),
    })
    .transform((row) => ({
      tokenId: row.token_id,
      accountId: row.account_id,
      label: row.label,
      createdAt: row.created_at.toISOString(),
      expiresAt: row.expires_at.toISOString(),
      lastUsedAt: row.last_used_at?.toISOString() ?? null,
    })),
);
export type ListedPhone = z.output<typeof rows>[number];
const owners = z.array(z.object({ account_id: z.string() }));

/**
 * Phones that several people share. A phone has an account of its own: as a recorder, so that what waits on it can always
 * be delivered; people sign in on it with their PIN.
 */
@Injectable()
export class Phones {
  constructor(
    private readonly scope: OperationScope,
    private readonly recording: Recording,
    private readonly access: Access,
    private readonly clock: Clock,
  ) {}

  list(operationId: string): Promise<ListedPhone[]> {
    return this.scope.run(operationId, async (manager) =>
      rows.parse(
        await manager.query(
          `SELECT token_id, account_id, label, created_at, expires_at, last_used_at FROM access_token
            WHERE scope_operation = $1 AND kind = 'phone' AND withdrawn_at IS NULL AND expires_at > $2 ORDER BY created_at`,
          [operationId, new Date(this.clock.now())],
        ),
      ),
    );
  }

  /** A phone and its token, shown this once. */
  async add(
    by: Member,
    label: string,
  ): Promise<{ tokenId: string; accountId: string; token: string; expiresAt: Date | null }> {
    const accountId = uuidv7();
    const { operationId } = by;
    return this.recording.run(operationId, async (manager, enter) => {
      await this.access.addAccount(manager, accountId, label);
      await this.access.addMember(manager, { operationId, accountId, role: 'recorder', what: 'phone' });
      const issued = await this.access.addToken(manager, {
        ...{ accountId, label, kind: 'phone', renewDays: phoneDays, operationId, roleAtMost: 'recorder' },
      });
      const data = { accessId: accountId, role: 'recorder' as const, purpose: 'a shared phone' };
      await enter(by.accountId, [prepareOwn({ type: 'access.granted', data }, this.clock.now())]);
      return { ...issued, accountId };
    });
  }

  /** A phone that was lost or given away: its token ends, and every session that began on it. */
  async withdraw(by: Member, tokenId: string, reason?: string): Promise<void> {
    const now = this.clock.now();
    await this.recording.run(by.operationId, async (manager, enter) => {
      const [phone] = owners.parse(
        await manager.query(
          `SELECT account_id FROM access_token
            WHERE scope_operation = $1 AND token_id = $2 AND kind = 'phone' AND withdrawn_at IS NULL FOR UPDATE`,
          [by.operationId, tokenId],
        ),
      );
      if (phone === undefined) throw notFound();
      await manager.query(
        `UPDATE access_token SET withdrawn_at = $3
          WHERE scope_operation = $1 AND (token_id = $2 OR through = $2) AND withdrawn_at IS NULL`,
        [by.operationId, tokenId, new Date(now)],
      );
      await manager.query('UPDATE membership SET ended_at = $3 WHERE operation_id = $1 AND account_id = $2', [
        by.operationId,
        phone.account_id,
        new Date(now),
      ]);
      const data = { accessId: phone.account_id, reason };
      await enter(by.accountId, [prepareOwn({ type: 'access.withdrawn', data }, now)]);
    });
  }
}
