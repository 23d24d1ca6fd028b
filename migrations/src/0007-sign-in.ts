import type { MigrationInterface, QueryRunner } from 'typeorm';
import { forwardOnly, ofThisAccount, ofThisOperation, onlyThisOperation, rowsWhere, run } from './statements.ts';

const ofThisToken = `sha256 = decode(nullif(current_setting('app.token', true), ''), 'hex')`;
const roles = `('inspector', 'recorder', 'reviewer', 'manager')`;

/**
 * Signing in: passwords, sessions, invitations, short PINs for shared phones, and who failed how often. Secrets are kept
 * as hashes only. Tables that belong to accounts, not to operations, show no more rows than the question is about: those
 * of the account, the sign-in name or the secret that the transaction has named.
 */
export class SignIn1764000000007 implements MigrationInterface {
  readonly name = 'SignIn1764000000007';

  up(queryRunner: QueryRunner): Promise<void> {
    return run(queryRunner, [
      // Everything that opens something is a token: a person's, a phone's, a program's, a reading link's, a session's.
      `ALTER TABLE access_token
         ADD COLUMN token_id uuid NOT NULL DEFAULT gen_random_uuid() UNIQUE,
         ADD COLUMN kind text NOT NULL DEFAULT 'person'
           CHECK (kind IN ('person', 'device', 'machine', 'phone', 'link', 'session', 'pin')),
         ADD COLUMN scope_operation uuid,
         ADD COLUMN role_at_most text CHECK (role_at_most IN ${roles}),
         ADD COLUMN renew_days integer,
         ADD COLUMN idle_minutes integer,
         ADD COLUMN through uuid,
         ADD COLUMN last_used_at timestamptz(3)`,
      `CREATE INDEX access_token_scope ON access_token (scope_operation) WHERE scope_operation IS NOT NULL`,
      ...rowsWhere('access_token', 'this_secret', ofThisToken),
      ...rowsWhere('access_token', 'this_account', ofThisAccount),
      ...rowsWhere('access_token', 'this_operation', ofThisOperation.replace('operation_id', 'scope_operation')),
      `GRANT UPDATE (expires_at, last_used_at) ON access_token TO furrowmark_service`,

      // A membership that ended stays, so that a name can still be given to what the person recorded.
      `ALTER TABLE membership
         ADD COLUMN what text NOT NULL DEFAULT 'person' CHECK (what IN ('person', 'link', 'phone')),
         ADD COLUMN ended_at timestamptz(3)`,
      `REVOKE DELETE ON membership FROM furrowmark_service`,
      `GRANT UPDATE (since, ended_at) ON membership TO furrowmark_service`,
      ...rowsWhere('account', 'this_account', ofThisAccount),
      `CREATE POLICY of_this_operation ON account FOR SELECT USING (EXISTS (
         SELECT FROM membership m WHERE m.${ofThisOperation} AND m.account_id = account.account_id))`,

      `CREATE TABLE credential (
         account_id uuid PRIMARY KEY REFERENCES account,
         login text NOT NULL UNIQUE,
         password_hash text NOT NULL CHECK (password_hash LIKE '$argon2id$%'),
         changed_at timestamptz(3) NOT NULL
       )`,
      ...rowsWhere('credential', 'this_account', ofThisAccount),
      `CREATE POLICY this_login ON credential FOR SELECT
         USING (login = nullif(current_setting('app.login', true), ''))`,
      `GRANT SELECT, INSERT, UPDATE (login, password_hash, changed_at) ON credential TO furrowmark_service`,

      `CREATE TABLE attempt (
         key bytea PRIMARY KEY CHECK (octet_length(key) = 32),
         failures integer NOT NULL,
         last_at timestamptz(3) NOT NULL,
         locked_until timestamptz(3)
       )`,
      ...rowsWhere('attempt', 'this_key', `key = decode(nullif(current_setting('app.attempt', true), ''), 'hex')`),
      `GRANT SELECT, INSERT, UPDATE, DELETE ON attempt TO furrowmark_service`,

      `CREATE TABLE invitation (
         sha256 bytea PRIMARY KEY CHECK (octet_length(sha256) = 32),
         invitation_id uuid NOT NULL UNIQUE,
         account_id uuid REFERENCES account,
         scope_operation uuid,
         role text CHECK (role IN ${roles}),
         name text NOT NULL,
         made_by uuid,
         created_at timestamptz(3) NOT NULL,
         expires_at timestamptz(3) NOT NULL,
         used_at timestamptz(3),
         withdrawn_at timestamptz(3)
       )`,
      ...rowsWhere('invitation', 'this_secret', ofThisToken),
      ...rowsWhere('invitation', 'this_operation', ofThisOperation.replace('operation_id', 'scope_operation')),
      `GRANT SELECT, INSERT, UPDATE (used_at, withdrawn_at) ON invitation TO furrowmark_service`,

      `CREATE TABLE pin (
         operation_id uuid NOT NULL,
         account_id uuid NOT NULL,
         hash text NOT NULL CHECK (hash LIKE '$argon2id$%'),
         changed_at timestamptz(3) NOT NULL,
         PRIMARY KEY (operation_id, account_id),
         FOREIGN KEY (operation_id, account_id) REFERENCES membership
       )`,
      ...onlyThisOperation('pin'),
      `GRANT SELECT, INSERT, DELETE, UPDATE (hash, changed_at) ON pin TO furrowmark_service`,
    ]);
  }

  down(): Promise<never> {
    return forwardOnly(this.name);
  }
}
