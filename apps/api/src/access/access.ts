import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { v7 as uuidv7 } from 'uuid';
import { z } from 'zod';
import { Clock } from '../clock.ts';
import { OperationScope } from '../database/index.ts';
import { role, type Person, type Role } from './roles.ts';
import { newToken, tokenHash } from './tokens.ts';

const found = z.array(z.object({ account_id: z.string(), account_name: z.string(), role: role.nullable() }));
const listed = z.array(
  z.object({ operation_id: z.string(), name: z.string(), time_zone: z.string(), role }).transform((row) => ({
    operationId: row.operation_id,
    name: row.name,
    timeZone: row.time_zone,
    role: row.role,
  })),
);

/** One of a person's operations. */
export type OwnOperation = z.output<typeof listed>[number];

/** Accounts, tokens, memberships: who somebody is, and what they are in an operation. */
@Injectable()
export class Access {
  constructor(
    private readonly dataSource: DataSource,
    private readonly scope: OperationScope,
    private readonly clock: Clock,
  ) {}

  /** Who the token stands for, and that person's role in the operation (null: none, or no operation asked for). */
  async whoIs(token: string, operationId: string | null): Promise<{ person: Person; role: Role | null } | null> {
    const [row] = found.parse(
      await this.dataSource.query('SELECT * FROM access_of($1, $2, $3)', [tokenHash(token), this.#now(), operationId]),
    );
    if (!row) return null;
    return { person: { accountId: row.account_id, name: row.account_name }, role: row.role };
  }

  /** The operations of a person, the oldest first: the only question that crosses operations. */
  async operationsOf(accountId: string): Promise<OwnOperation[]> {
    return listed.parse(await this.dataSource.query('SELECT * FROM operations_of($1)', [accountId]));
  }

  /** An account for a person. `name` is shown in the service only; records carry the account's id, never a name. */
  async createAccount({ name }: { readonly name: string }): Promise<{ accountId: string }> {
    const accountId = uuidv7();
    await this.dataSource.query('INSERT INTO account VALUES ($1, $2, $3)', [accountId, name, this.#now()]);
    return { accountId };
  }

  /** A token for a person, or for one of that person's devices. It is shown this once. `lifeDays` absent: until withdrawn. */
  async issueToken(input: {
    readonly accountId: string;
    readonly label: string;
    readonly lifeDays?: number;
  }): Promise<{ token: string }> {
    const token = newToken();
    const now = this.#now();
    const expiry = input.lifeDays === undefined ? null : new Date(now.getTime() + input.lifeDays * 86_400_000);
    await this.dataSource.query('INSERT INTO access_token VALUES ($1, $2, $3, $4, $5)', [
      tokenHash(token),
      input.accountId,
      input.label,
      now,
      expiry,
    ]);
    return { token };
  }

  /** From now on the token opens nothing. */
  async withdrawToken(token: string): Promise<void> {
    await this.dataSource.query(
      'UPDATE access_token SET withdrawn_at = $2 WHERE sha256 = $1 AND withdrawn_at IS NULL',
      [tokenHash(token), this.#now()],
    );
  }

  /** Makes a person a member of an operation, or changes what they are there. */
  async grant(input: { readonly operationId: string; readonly accountId: string; readonly role: Role }): Promise<void> {
    await this.scope.run(input.operationId, (manager) =>
      manager.query(
        `INSERT INTO membership VALUES ($1, $2, $3, $4)
         ON CONFLICT (operation_id, account_id) DO UPDATE SET role = EXCLUDED.role`,
        [input.operationId, input.accountId, role.parse(input.role), this.#now()],
      ),
    );
  }

  /** Ends a membership; what the person recorded stays. */
  async withdraw(input: { readonly operationId: string; readonly accountId: string }): Promise<void> {
    await this.scope.run(input.operationId, (manager) =>
      manager.query('DELETE FROM membership WHERE operation_id = $1 AND account_id = $2', [
        input.operationId,
        input.accountId,
      ]),
    );
  }

  #now(): Date {
    return new Date(this.clock.now());
  }
}
