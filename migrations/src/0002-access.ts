import type { MigrationInterface, QueryRunner } from 'typeorm';
import { forwardOnly, ofThisOperation, run } from './statements.ts';

const ofThisAccount = `account_id = nullif(current_setting('app.account_id', true), '')::uuid`;

/**
 * Accounts, their tokens (only the SHA-256 of a token is kept), operations, and who is a member of which.
 * A membership is seen from its operation or from its account: the list of one's operations is the only
 * question that crosses operations.
 */
export class Access1764000000002 implements MigrationInterface {
  readonly name = 'Access1764000000002';

  up(queryRunner: QueryRunner): Promise<void> {
    return run(queryRunner, [
      `CREATE TABLE account (
         account_id uuid PRIMARY KEY,
         name text NOT NULL,
         created_at timestamptz(3) NOT NULL
       )`,
      `CREATE TABLE access_token (
         sha256 bytea PRIMARY KEY CHECK (octet_length(sha256) = 32),
         account_id uuid NOT NULL REFERENCES account,
         label text NOT NULL,
         created_at timestamptz(3) NOT NULL,
         expires_at timestamptz(3),
         withdrawn_at timestamptz(3)
       )`,
      `CREATE INDEX access_token_account ON access_token (account_id)`,
      `CREATE TABLE operation (
         operation_id uuid PRIMARY KEY,
         name text NOT NULL,
         time_zone text NOT NULL,
         created_at timestamptz(3) NOT NULL
       )`,
      `CREATE TABLE membership (
         operation_id uuid NOT NULL REFERENCES operation,
         account_id uuid NOT NULL REFERENCES account,
         role text NOT NULL CHECK (role IN ('recorder', 'reviewer', 'manager', 'inspector')),
         since timestamptz(3) NOT NULL,
         PRIMARY KEY (operation_id, account_id)
       )`,
      `CREATE INDEX membership_account ON membership (account_id, operation_id)`,
      ...['operation', 'membership'].flatMap((table) => [
        `ALTER TABLE ${table} ENABLE ROW LEVEL SECURITY`,
        `ALTER TABLE ${table} FORCE ROW LEVEL SECURITY`,
        `CREATE POLICY this_operation ON ${table} USING (${ofThisOperation}) WITH CHECK (${ofThisOperation})`,
      ]),
      `CREATE POLICY this_account ON membership FOR SELECT USING (${ofThisAccount})`,
      `CREATE POLICY this_account ON operation FOR SELECT USING (EXISTS (
         SELECT FROM membership m WHERE m.operation_id = operation.operation_id AND m.${ofThisAccount}))`,
      // One round trip a request: who the token stands for, and what that person is in this operation.
      `CREATE FUNCTION access_of(token_sha256 bytea, at timestamptz, operation uuid)
         RETURNS TABLE (account_id uuid, account_name text, role text) LANGUAGE plpgsql AS $$
       DECLARE who account;
       BEGIN
         SELECT a.* INTO who FROM access_token t JOIN account a ON a.account_id = t.account_id
          WHERE t.sha256 = token_sha256 AND t.withdrawn_at IS NULL AND (t.expires_at IS NULL OR t.expires_at > at);
         IF NOT FOUND THEN RETURN; END IF;
         PERFORM set_config('app.account_id', who.account_id::text, true);
         RETURN QUERY SELECT who.account_id, who.name,
           (SELECT m.role FROM membership m WHERE m.operation_id = operation AND m.account_id = who.account_id);
       END $$`,
      `CREATE FUNCTION operations_of(account uuid)
         RETURNS TABLE (operation_id uuid, name text, time_zone text, role text) LANGUAGE plpgsql AS $$
       BEGIN
         PERFORM set_config('app.account_id', account::text, true);
         RETURN QUERY SELECT o.operation_id, o.name, o.time_zone, m.role
           FROM membership m JOIN operation o ON o.operation_id = m.operation_id
          WHERE m.account_id = account ORDER BY o.created_at, o.operation_id;
       END $$`,
      `GRANT SELECT, INSERT ON account, access_token, operation, membership TO furrowmark_service`,
      `GRANT UPDATE (withdrawn_at) ON access_token TO furrowmark_service`,
      `GRANT UPDATE (name, time_zone) ON operation TO furrowmark_service`,
      `GRANT UPDATE (role), DELETE ON membership TO furrowmark_service`,
      `GRANT SELECT ON operation TO furrowmark_reader`,
    ]);
  }

  down(): Promise<never> {
    return forwardOnly(this.name);
  }
}
