import { Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import { z } from 'zod';
import { Clock } from '../clock.ts';
import { codeOf } from '../error-code.ts';
import { ProblemAnswer } from '../http/index.ts';
import { Access } from './access.ts';
import { AccountScope, naming } from './account-scope.ts';
import { Attempts } from './attempts.ts';
import { hashOf, isRight, weakness } from './passwords.ts';
import type { Person, Via } from './roles.ts';

/** A session ends when it was not used for twelve hours, and after seven days in any case. */
const idleMinutes = 12 * 60;
const sessionDays = 7;
const longestWaitMinutes = 60;

const credentials = z.array(
  z.object({ account_id: z.string(), login: z.string(), password_hash: z.string(), name: z.string() }),
);
const kept = `SELECT c.account_id, c.login, c.password_hash, a.name FROM credential c JOIN account a USING (account_id)`;

/** A new session: the secret for the cookie. */
export interface NewSession {
  readonly person: Person;
  readonly token: string;
  readonly expiresAt: Date;
}

/** A password to be set; `login` where there is no sign-in name yet or it is to be another. */
export interface NewPassword {
  readonly login?: string | undefined;
  readonly password: string;
  /** Ends phones and programs as well as sessions. */
  readonly everywhere?: boolean;
}

/** The name that somebody signs in with, as it is compared: no upper case, no blanks around it. */
export const loginOf = (text: string): string => text.normalize('NFKC').trim().toLowerCase();

/** Passwords, and the sessions that they open. */
@Injectable()
export class SignIn {
  constructor(
    private readonly accounts: AccountScope,
    private readonly access: Access,
    private readonly attempts: Attempts,
    private readonly clock: Clock,
  ) {}

  /** A session for whoever knows the password; null where name or password are not right, without telling which. */
  async signIn(name: string, password: string): Promise<NewSession | null> {
    const login = loginOf(name);
    const found = await this.attempts.attempt(['login', login], longestWaitMinutes, async () => {
      const kept = await this.#byLogin(login);
      return (await isRight(password, kept?.password_hash ?? null)) ? kept : null;
    });
    if (found === null) return null;
    const person = { accountId: found.account_id, name: found.name };
    return this.accounts.run({ accountId: person.accountId }, async (manager) => {
      // Whoever changed the password while it was looked at must not find a session of the old one afterwards.
      const still: unknown = await manager.query(
        'SELECT 1 FROM credential WHERE account_id = $1 AND password_hash = $2 FOR SHARE',
        [person.accountId, found.password_hash],
      );
      return Array.isArray(still) && still.length > 0 ? this.#open(manager, person) : null;
    });
  }

  /** Whether the person's password is right: asked again where somebody signs, or changes it. */
  async reauthenticate(accountId: string, password: string): Promise<boolean> {
    const found = await this.credentialOf(accountId);
    if (found === null) return false;
    const right = await this.attempts.attempt(['login', found.login], longestWaitMinutes, async () =>
      (await isRight(password, found.password_hash)) ? true : null,
    );
    return right !== null;
  }

  /** A session for somebody who has just shown who they are. */
  async openFor(person: Person): Promise<NewSession> {
    return this.accounts.run({ accountId: person.accountId }, (manager) => this.#open(manager, person));
  }

  async #open(manager: EntityManager, person: Person): Promise<NewSession> {
    const { token, expiresAt } = await this.access.addToken(manager, {
      accountId: person.accountId,
      label: 'session',
      kind: 'session',
      lifeDays: sessionDays,
      idleMinutes,
    });
    if (expiresAt === null) throw new Error('a session without an end');
    return { person, token, expiresAt };
  }

  /**
   * Sets the person's password (and sign-in name, where there is none yet or a new one is given) and ends every other
   * session of the person. 422 where it will not do, 409 where the name is taken.
   */
  async setPassword(person: Person, input: NewPassword): Promise<void> {
    await this.accounts.run({ accountId: person.accountId }, (manager) => this.writePassword(manager, person, input));
  }

  /** The same inside a transaction that has named the account. */
  async writePassword(manager: EntityManager, { accountId, name, via }: Person, input: NewPassword): Promise<void> {
    const [before] = credentials.parse(await manager.query(`${kept} WHERE c.account_id = $1`, [accountId]));
    const login = input.login === undefined ? before?.login : loginOf(input.login);
    if (login === undefined) throw refusal('/login', 'is needed: choose the name to sign in with');
    if (login.length < 3 || login.length > 200) throw refusal('/login', 'must have 3 to 200 characters');
    const weak = await weakness(input.password, [login, name, ...name.split(/\s+/)]);
    if (weak !== null) throw refusal('/password', weak);
    const hash = await hashOf(input.password);
    const now = new Date(this.clock.now());
    await manager
      .query(
        `INSERT INTO credential VALUES ($1, $2, $3, $4) ON CONFLICT (account_id) DO UPDATE
            SET login = EXCLUDED.login, password_hash = EXCLUDED.password_hash, changed_at = EXCLUDED.changed_at`,
        [accountId, login, hash, now],
      )
      .catch((error: unknown) => {
        if (codeOf(error) !== '23505') throw error;
        throw new ProblemAnswer('conflict', 'Somebody signs in with that name already. Choose another.', [
          { pointer: '/login', detail: 'is taken' },
        ]);
      });
    await this.endSessions(manager, accountId, now, { but: via, everywhere: input.everywhere ?? false });
  }

  /** Ends the sessions of an account, those on shared phones included, but for the one that asks. */
  async endSessions(
    manager: EntityManager,
    accountId: string,
    now: Date,
    { but, everywhere }: { readonly but?: Via | undefined; readonly everywhere: boolean },
  ): Promise<void> {
    await manager.query(
      `UPDATE access_token SET withdrawn_at = $2
        WHERE account_id = $1 AND withdrawn_at IS NULL AND token_id IS DISTINCT FROM $3
          AND ($4 OR kind IN ('session', 'pin'))`,
      [accountId, now, but?.tokenId ?? null, everywhere],
    );
  }

  /** How the account signs in; null where it has no password. */
  async credentialOf(accountId: string): Promise<{ readonly login: string; readonly password_hash: string } | null> {
    return this.accounts.run({ accountId }, async (manager) => {
      const [found] = credentials.parse(await manager.query(`${kept} WHERE c.account_id = $1`, [accountId]));
      return found ?? null;
    });
  }

  /** The account that signs in with this name. */
  async accountOf(name: string): Promise<string | null> {
    return (await this.#byLogin(loginOf(name)))?.account_id ?? null;
  }

  #byLogin(login: string) {
    return this.accounts.run({ login }, async (manager) => {
      const ids = z
        .array(z.object({ account_id: z.string() }))
        .parse(await manager.query('SELECT account_id FROM credential WHERE login = $1', [login]));
      const [id] = ids;
      if (id === undefined) return null;
      await naming(manager, { accountId: id.account_id });
      const [found] = credentials.parse(await manager.query(`${kept} WHERE c.account_id = $1`, [id.account_id]));
      return found ?? null;
    });
  }
}

const refusal = (pointer: string, detail: string): ProblemAnswer =>
  new ProblemAnswer('invalid-body', `The ${pointer.slice(1)} ${detail}.`, [{ pointer, detail }]);
