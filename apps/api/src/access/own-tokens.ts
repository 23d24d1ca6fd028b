import { Injectable } from '@nestjs/common';
import { z } from 'zod';
import { Clock } from '../clock.ts';
import { notFound, ProblemAnswer } from '../http/index.ts';
import { Access } from './access.ts';
import { AccountScope } from './account-scope.ts';
import { role, tokenKind, type Person, type Role } from './roles.ts';

/** A phone that is signed in stays so for ninety days from its last use. */
const deviceDays = 90;

const rows = z.array(
  z
    .object({
      token_id: z.string(),
      kind: tokenKind,
      label: z.string(),
      scope_operation: z.string().nullable(),
      role_at_most: role.nullable(),
      created_at: z.date(),
      expires_at: z.date().nullable(),
      last_used_at: z.date().nullable(),
    })
    .transform((row) => ({
      tokenId: row.token_id,
      kind: row.kind,
      label: row.label,
      operationId: row.scope_operation,
      roleAtMost: row.role_at_most,
      createdAt: row.created_at.toISOString(),
      expiresAt: row.expires_at?.toISOString() ?? null,
      lastUsedAt: row.last_used_at?.toISOString() ?? null,
    })),
);
/** One of a person's tokens; the secret itself is not kept. */
export type OwnToken = z.output<typeof rows>[number];

const updated = z.tuple([z.array(z.unknown()), z.number()]);

/** A token for a program: in one operation, at most in that role, and not for ever. */
export interface MachineToken {
  readonly label: string;
  readonly operationId: string;
  readonly role: Exclude<Role, 'manager'>;
  readonly lifeDays: number;
}

/** What a person has signed in with: phones, programs, sessions. */
@Injectable()
export class OwnTokens {
  constructor(
    private readonly accounts: AccountScope,
    private readonly access: Access,
    private readonly clock: Clock,
  ) {}

  list({ accountId }: Person): Promise<OwnToken[]> {
    return this.accounts.run({ accountId }, async (manager) =>
      rows.parse(
        await manager.query(
          `SELECT token_id, kind, label, scope_operation, role_at_most, created_at, expires_at, last_used_at
             FROM access_token
            WHERE account_id = $1 AND withdrawn_at IS NULL AND (expires_at IS NULL OR expires_at > $2)
            ORDER BY created_at, token_id`,
          [accountId, new Date(this.clock.now())],
        ),
      ),
    );
  }

  /** A token for one of the person's phones: renewed with every use. */
  addDevice({ accountId }: Person, label: string) {
    return this.access.issueToken({ accountId, label, kind: 'device', renewDays: deviceDays });
  }

  /** A token for a program. 422 where the person is no member of the operation. */
  async addMachine({ accountId, via }: Person, { role: roleAtMost, ...input }: MachineToken) {
    const own = await this.access.operationsOf(accountId, via);
    if (!own.some(({ operationId }) => operationId === input.operationId)) {
      const detail = 'must be one of your operations';
      throw new ProblemAnswer('invalid-body', `operationId ${detail}.`, [{ pointer: '/operationId', detail }]);
    }
    return this.access.issueToken({ ...input, accountId, roleAtMost, kind: 'machine' });
  }

  /** From now on the token opens nothing. 404 where it is not the person's. */
  async withdraw({ accountId }: Person, tokenId: string): Promise<void> {
    const [, count] = updated.parse(
      await this.accounts.run({ accountId }, (manager) =>
        manager.query(
          `UPDATE access_token SET withdrawn_at = $3
            WHERE account_id = $1 AND token_id = $2 AND withdrawn_at IS NULL RETURNING 1`,
          [accountId, tokenId, new Date(this.clock.now())],
        ),
      ),
    );
    if (count === 0) throw notFound();
  }
}
