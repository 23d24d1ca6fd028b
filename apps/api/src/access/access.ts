import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { v7 as uuidv7 } from 'uuid';
import { z } from 'zod';
import { Clock } from '../clock.ts';
import { OperationScope, prepared } from '../database/index.ts';
import { AccountScope, naming } from './account-scope.ts';
import { atMost, role, tokenKind, type Period, type Person, type Role, type TokenKind, type Via } from './roles.ts';
import { Together } from './together.ts';
import { newToken, tokenHash } from './tokens.ts';

const day = 86_400_000;

const found = z.array(
  z
    .object({
      place: z.coerce.number(),
      account_id: z.string(),
      account_name: z.string(),
      token_id: z.string(),
      kind: tokenKind,
      scope_operation: z.string().nullable(),
      role_at_most: role.nullable(),
      expires_at: z.date().nullable(),
      role: role.nullable(),
      time_zone: z.string().nullable(),
      access_id: z.string().nullable(),
      reads_from: z.string().nullable(),
      reads_until: z.string().nullable(),
      last_used_on: z.string().nullable(),
    })
    .transform((row) => ({
      place: row.place,
      accountId: row.account_id,
      name: row.account_name,
      via: {
        kind: row.kind,
        tokenId: row.token_id,
        operationId: row.scope_operation,
        roleAtMost: row.role_at_most,
        expiresAt: row.expires_at?.getTime() ?? null,
      } satisfies Via,
      role: row.role,
      timeZone: row.time_zone,
      link:
        row.access_id === null
          ? null
          : {
              accessId: row.access_id,
              reads: { from: row.reads_from, until: row.reads_until } satisfies Period,
              lastUsedOn: row.last_used_on,
            },
    })),
);
/** Whose secret it is, and which operation is asked about. */
interface Asked {
  readonly secret: Buffer;
  readonly operationId: string | null;
}
type Found = z.output<typeof found>[number];

// Each row names its own secret to the database before it looks; in an order of their own, so that two such questions
// that note the use of the same tokens never wait for each other.
const accessOf = `
  SELECT a.*, q.place
    FROM (SELECT * FROM unnest($1::bytea[], $2::uuid[]) WITH ORDINALITY AS q (secret, operation, place) ORDER BY secret) q,
         LATERAL access_of(q.secret, $3, q.operation) a`;

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

/** Who a token stands for, and what that is in the operation asked about. */
export interface Identity {
  readonly person: Person & { readonly via: Via };
  /** null: no member, or no operation asked about, or the token does not open it. */
  readonly role: Role | null;
  readonly timeZone: string | null;
  /** Set where the token is a reading link into that operation. `lastUsedOn`: the day its use was last recorded. */
  readonly link: { readonly accessId: string; readonly reads: Period; readonly lastUsedOn: string | null } | null;
}

/** What a new token is to be. */
export interface NewToken {
  readonly accountId: string;
  readonly label: string;
  /** `person` where left out. */
  readonly kind?: TokenKind;
  /** Absent: until withdrawn. */
  readonly lifeDays?: number;
  readonly expiresAt?: Date;
  /** With every use it lives so many days from then on. */
  readonly renewDays?: number;
  /** It ends when not used for so long. */
  readonly idleMinutes?: number;
  readonly operationId?: string;
  readonly roleAtMost?: Role;
  /** Ends with this other token (its id). */
  readonly through?: string;
}

/** Accounts, tokens, memberships: who somebody is, and what they are in an operation. */
@Injectable()
export class Access {
  constructor(
    private readonly dataSource: DataSource,
    private readonly scope: OperationScope,
    private readonly accounts: AccountScope,
    private readonly clock: Clock,
  ) {}

  /** Requests that arrive together ask together: one question to the database, not one each. */
  readonly #together = new Together((asked: readonly Asked[]) => this.#whoAre(asked));

  /** Who the token stands for, and that person's role in the operation (null: none, or no operation asked about). */
  async whoIs(token: string, operationId: string | null): Promise<Identity | null> {
    const row = await this.#together.ask({ secret: tokenHash(token), operationId });
    if (row === null) return null;
    const { accountId, name, via, timeZone, link } = row;
    const opens = via.operationId === null || via.operationId === operationId;
    const own = row.role === null || !opens ? null : atMost(row.role, via.roleAtMost);
    return { person: { accountId, name, via }, role: own, timeZone, link };
  }

  async #whoAre(asked: readonly Asked[]): Promise<(Found | null)[]> {
    const runner = this.dataSource.createQueryRunner();
    try {
      const rows = await prepared(runner.manager, accessOf, [
        asked.map(({ secret }) => secret),
        asked.map(({ operationId }) => operationId),
        this.#now(),
      ]);
      const byPlace = new Map(found.parse(rows).map((row) => [row.place, row]));
      return asked.map((_, i) => byPlace.get(i + 1) ?? null);
    } finally {
      await runner.release();
    }
  }

  /** The operations of a person, the oldest first: the only question that crosses operations. */
  async operationsOf(accountId: string, via?: Via): Promise<OwnOperation[]> {
    const all = listed.parse(await this.dataSource.query('SELECT * FROM operations_of($1)', [accountId]));
    return all
      .filter(({ operationId }) => via === undefined || via.operationId === null || via.operationId === operationId)
      .map((own) => ({ ...own, role: atMost(own.role, via?.roleAtMost ?? null) }));
  }

  /** An account for a person. `name` is shown in the service only; records carry the account's id, never a name. */
  async createAccount({ name }: { readonly name: string }): Promise<{ accountId: string }> {
    const accountId = uuidv7();
    await this.accounts.run({ accountId }, (manager) => this.addAccount(manager, accountId, name));
    return { accountId };
  }

  /** The same inside a transaction that has its own scope already. */
  async addAccount(manager: EntityManager, accountId: string, name: string): Promise<void> {
    await naming(manager, { accountId });
    await manager.query('INSERT INTO account VALUES ($1, $2, $3)', [accountId, name, this.#now()]);
  }

  /** A token for a person, a device, a program. It is shown this once. */
  async issueToken(input: NewToken): Promise<{ token: string; tokenId: string; expiresAt: Date | null }> {
    return this.accounts.run({ accountId: input.accountId }, (manager) => this.addToken(manager, input));
  }

  /** The same inside a transaction that has named the account. */
  async addToken(
    manager: EntityManager,
    input: NewToken,
  ): Promise<{ token: string; tokenId: string; expiresAt: Date | null }> {
    const token = newToken(input.kind === 'session' || input.kind === 'pin' ? 'fms' : 'fmt');
    const now = this.#now();
    const life = input.lifeDays ?? input.renewDays;
    const expiresAt = input.expiresAt ?? (life === undefined ? null : new Date(now.getTime() + life * day));
    const tokenId = uuidv7();
    await manager.query(
      `INSERT INTO access_token (sha256, account_id, label, created_at, expires_at, token_id, kind, scope_operation,
                                 role_at_most, renew_days, idle_minutes, through)
       VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12)`,
      [
        ...[tokenHash(token), input.accountId, input.label, now, expiresAt, tokenId, input.kind ?? 'person'],
        ...[input.operationId, input.roleAtMost, input.renewDays, input.idleMinutes, input.through],
      ],
    );
    return { token, tokenId, expiresAt };
  }

  /** From now on the token opens nothing. */
  async withdrawToken(token: string): Promise<void> {
    const secret = tokenHash(token);
    await this.accounts.run({ secret }, (manager) =>
      manager.query('UPDATE access_token SET withdrawn_at = $2 WHERE sha256 = $1 AND withdrawn_at IS NULL', [
        secret,
        this.#now(),
      ]),
    );
  }

  /**
   * Makes a person a member of an operation, or changes what they are there, without a record: for setting up. What a
   * manager decides goes through the memberships, which record it.
   */
  async grant(input: { readonly operationId: string; readonly accountId: string; readonly role: Role }): Promise<void> {
    await this.scope.run(input.operationId, (manager) => this.addMember(manager, input));
  }

  /** The same inside the operation's transaction. */
  async addMember(
    manager: EntityManager,
    input: {
      readonly operationId: string;
      readonly accountId: string;
      readonly role: Role;
      readonly what?: 'person' | 'link' | 'phone';
    },
  ): Promise<void> {
    await manager.query(
      `INSERT INTO membership (operation_id, account_id, role, since, what) VALUES ($1, $2, $3, $4, $5)
       ON CONFLICT (operation_id, account_id) DO UPDATE SET role = EXCLUDED.role, ended_at = NULL`,
      [input.operationId, input.accountId, role.parse(input.role), this.#now(), input.what ?? 'person'],
    );
  }

  #now(): Date {
    return new Date(this.clock.now());
  }
}
