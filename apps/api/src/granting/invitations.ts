import { Injectable } from '@nestjs/common';
import { v7 as uuidv7 } from 'uuid';
import { z } from 'zod';
import {
  Access,
  AccountScope,
  naming,
  newToken,
  role,
  SignIn,
  tokenHash,
  type Person,
  type Role,
} from '../access/index.ts';
import { prepareOwn, Recording } from '../append/index.ts';
import { Clock } from '../clock.ts';
import { OperationScope } from '../database/index.ts';
import { notFound, ProblemAnswer } from '../http/index.ts';

const lifeDays = 7;
const day = 86_400_000;

const kept = z.array(
  z.object({
    invitation_id: z.string(),
    account_id: z.string().nullable(),
    scope_operation: z.string().nullable(),
    role: role.nullable(),
    name: z.string(),
    made_by: z.string().nullable(),
    expires_at: z.date(),
    used_at: z.date().nullable(),
    withdrawn_at: z.date().nullable(),
  }),
);
const updated = z.tuple([z.array(z.unknown()), z.number()]);

/** What an invitation is for: a place in an operation, or a new password for an account. */
export interface NewInvitation {
  readonly operationId?: string;
  readonly role?: Role;
  readonly accountId?: string;
  readonly name: string;
  /** The manager who invites; absent: whoever runs the machine. */
  readonly madeBy?: string;
}

/** Invitations: a secret that works once, for a week. Whoever has it chooses a sign-in name and a password. */
@Injectable()
export class Invitations {
  constructor(
    private readonly accounts: AccountScope,
    private readonly scope: OperationScope,
    private readonly recording: Recording,
    private readonly access: Access,
    private readonly signIns: SignIn,
    private readonly clock: Clock,
  ) {}

  async make(input: NewInvitation): Promise<{ invitation: string; invitationId: string; expiresAt: Date }> {
    const invitation = newToken('fmi');
    const secret = tokenHash(invitation);
    const now = this.clock.now();
    const [invitationId, expiresAt] = [uuidv7(), new Date(now + lifeDays * day)];
    await this.accounts.run({ secret }, (manager) =>
      manager.query(
        `INSERT INTO invitation (sha256, invitation_id, account_id, scope_operation, role, name, made_by, created_at, expires_at)
         VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9)`,
        [
          ...[secret, invitationId, input.accountId, input.operationId, input.role],
          ...[input.name, input.madeBy, new Date(now), expiresAt],
        ],
      ),
    );
    return { invitation, invitationId, expiresAt };
  }

  /** Invitations into an operation that were neither used nor withdrawn, and have not run out. */
  open(operationId: string): Promise<object[]> {
    return this.scope.run(operationId, async (manager) =>
      kept
        .parse(
          await manager.query(
            `SELECT * FROM invitation WHERE scope_operation = $1 AND used_at IS NULL AND withdrawn_at IS NULL
                AND expires_at > $2 ORDER BY created_at`,
            [operationId, new Date(this.clock.now())],
          ),
        )
        .map((row) => ({
          invitationId: row.invitation_id,
          name: row.name,
          role: row.role,
          expiresAt: row.expires_at.toISOString(),
        })),
    );
  }

  async withdraw(operationId: string, invitationId: string): Promise<void> {
    const [, count] = updated.parse(
      await this.scope.run(operationId, (manager) =>
        manager.query(
          `UPDATE invitation SET withdrawn_at = $3
            WHERE scope_operation = $1 AND invitation_id = $2 AND used_at IS NULL AND withdrawn_at IS NULL RETURNING 1`,
          [operationId, invitationId, new Date(this.clock.now())],
        ),
      ),
    );
    if (count === 0) throw notFound();
  }

  /**
   * Accepts an invitation: as the person who is signed in, or as a new person with a name and a password; or sets an
   * account's password anew. The grant is recorded in the name of the manager who invited.
   */
  async accept(
    invitation: string,
    answer: { readonly as: Person } | { readonly login?: string | undefined; readonly password: string },
  ): Promise<{ person: Person; operationId: string | null; role: Role | null }> {
    const secret = tokenHash(invitation);
    const found = await this.accounts.run({ secret }, async (manager) =>
      kept.parse(await manager.query('SELECT * FROM invitation WHERE sha256 = $1', [secret])),
    );
    const [row] = found;
    if (row === undefined || row.used_at || row.withdrawn_at || row.expires_at.getTime() <= this.clock.now())
      throw gone();
    if (row.scope_operation === null || row.role === null) return this.#newPassword(secret, row, answer);
    const [operationId, granted] = [row.scope_operation, row.role];
    const person = 'as' in answer ? answer.as : { accountId: uuidv7(), name: row.name };
    await this.recording.run(operationId, async (manager, enter) => {
      await naming(manager, { secret, accountId: person.accountId });
      await this.#use(manager, secret);
      await this.#stillManager(manager, operationId, row.made_by);
      if ('as' in answer) await this.#notYetMember(manager, operationId, person.accountId);
      else {
        await this.access.addAccount(manager, person.accountId, person.name);
        await this.signIns.writePassword(manager, person, answer);
      }
      await this.access.addMember(manager, { operationId, accountId: person.accountId, role: granted });
      const data = { accessId: person.accountId, role: granted };
      const record = prepareOwn({ type: 'access.granted', data }, this.clock.now());
      await enter(row.made_by ?? person.accountId, [record]);
    });
    return { person, operationId, role: granted };
  }

  async #newPassword(
    secret: Buffer,
    row: z.output<typeof kept>[number],
    answer: Parameters<Invitations['accept']>[1],
  ): Promise<{ person: Person; operationId: null; role: null }> {
    if ('as' in answer || row.account_id === null) throw gone();
    const person: Person = { accountId: row.account_id, name: row.name };
    await this.accounts.run({ secret, accountId: person.accountId }, async (manager) => {
      await this.#use(manager, secret);
      await this.signIns.writePassword(manager, person, answer);
    });
    return { person, operationId: null, role: null };
  }

  /** Works once: of two who come at the same time one is too late. */
  async #use(manager: Parameters<Access['addMember']>[0], secret: Buffer): Promise<void> {
    const [, count] = updated.parse(
      await manager.query(
        'UPDATE invitation SET used_at = $2 WHERE sha256 = $1 AND used_at IS NULL AND withdrawn_at IS NULL RETURNING 1',
        [secret, new Date(this.clock.now())],
      ),
    );
    if (count === 0) throw gone();
  }

  /** An invitation brings somebody in; it does not change what a member is, least of all the last manager. */
  async #notYetMember(
    manager: Parameters<Access['addMember']>[0],
    operationId: string,
    accountId: string,
  ): Promise<void> {
    const found: unknown = await manager.query(
      'SELECT 1 FROM membership WHERE operation_id = $1 AND account_id = $2 AND ended_at IS NULL',
      [operationId, accountId],
    );
    if (!Array.isArray(found) || found.length === 0) return;
    throw new ProblemAnswer('conflict', 'You are a member already. A manager changes what you are there.');
  }

  /** Who is no manager any more has not invited anybody. */
  async #stillManager(
    manager: Parameters<Access['addMember']>[0],
    operationId: string,
    madeBy: string | null,
  ): Promise<void> {
    if (madeBy === null) return;
    const found: unknown = await manager.query(
      `SELECT 1 FROM membership WHERE operation_id = $1 AND account_id = $2 AND role = 'manager' AND ended_at IS NULL`,
      [operationId, madeBy],
    );
    if (!Array.isArray(found) || found.length === 0) throw gone();
  }
}

const gone = (): ProblemAnswer =>
  new ProblemAnswer('not-found', 'This invitation is not valid (any more). Ask for a new one.');
