import type { MigrationInterface, QueryRunner } from 'typeorm';
import { forwardOnly, ofThisAccount, onlyThisOperation, run } from './statements.ts';

/** Links that let somebody outside read for a while, limited to a period; and how a request is told who sends it. */
export class ReadingLinks1764000000008 implements MigrationInterface {
  readonly name = 'ReadingLinks1764000000008';

  up(queryRunner: QueryRunner): Promise<void> {
    return run(queryRunner, [
      `CREATE TABLE access_link (
         operation_id uuid NOT NULL,
         access_id uuid NOT NULL,
         account_id uuid NOT NULL,
         purpose text,
         inspection_id uuid,
         reads_from date,
         reads_until date,
         granted_by uuid NOT NULL,
         created_at timestamptz(3) NOT NULL,
         expires_at timestamptz(3) NOT NULL,
         withdrawn_at timestamptz(3),
         last_used_on date,
         PRIMARY KEY (operation_id, access_id),
         UNIQUE (operation_id, account_id),
         FOREIGN KEY (operation_id, account_id) REFERENCES membership
       )`,
      ...onlyThisOperation('access_link'),
      `CREATE POLICY this_account ON access_link FOR SELECT USING (${ofThisAccount})`,
      `GRANT SELECT, INSERT, UPDATE (withdrawn_at, last_used_on) ON access_link TO furrowmark_service`,

      `DROP FUNCTION access_of(bytea, timestamptz, uuid)`,
      // One round trip a request: what kind of token it is, who it stands for, what that person is in this operation, how
      // far a reading link reaches. A token in use lives on: a phone's is renewed, a session does not fall idle.
      `CREATE FUNCTION access_of(token_sha256 bytea, at timestamptz, operation uuid)
         RETURNS TABLE (account_id uuid, account_name text, token_id uuid, kind text, scope_operation uuid,
                        role_at_most text, expires_at timestamptz, role text, time_zone text,
                        access_id uuid, reads_from text, reads_until text, last_used_on text)
         LANGUAGE plpgsql AS $$
       #variable_conflict use_column
       DECLARE t access_token;
       BEGIN
         PERFORM set_config('app.token', encode(token_sha256, 'hex'), true);
         SELECT x.* INTO t FROM access_token x
          WHERE x.sha256 = token_sha256 AND x.withdrawn_at IS NULL AND (x.expires_at IS NULL OR x.expires_at > at)
            AND (x.idle_minutes IS NULL
                 OR coalesce(x.last_used_at, x.created_at) + make_interval(mins => x.idle_minutes) > at);
         IF NOT FOUND THEN RETURN; END IF;
         PERFORM set_config('app.account_id', t.account_id::text, true);
         IF coalesce(t.last_used_at, '-infinity') < at - interval '5 minutes' THEN
           UPDATE access_token x
              SET last_used_at = at,
                  expires_at = CASE WHEN t.renew_days IS NULL THEN x.expires_at
                                    ELSE greatest(x.expires_at, at + make_interval(days => t.renew_days)) END
            WHERE x.sha256 = token_sha256;
         END IF;
         RETURN QUERY SELECT a.account_id, a.name, t.token_id, t.kind, t.scope_operation, t.role_at_most, t.expires_at,
             m.role, o.time_zone, l.access_id, l.reads_from::text, l.reads_until::text, l.last_used_on::text
           FROM account a
           LEFT JOIN membership m ON m.operation_id = operation AND m.account_id = a.account_id AND m.ended_at IS NULL
           LEFT JOIN operation o ON o.operation_id = m.operation_id
           LEFT JOIN access_link l ON l.operation_id = m.operation_id AND l.account_id = m.account_id
          WHERE a.account_id = t.account_id;
       END $$`,
      `CREATE OR REPLACE FUNCTION operations_of(account uuid)
         RETURNS TABLE (operation_id uuid, name text, time_zone text, role text) LANGUAGE plpgsql AS $$
       BEGIN
         PERFORM set_config('app.account_id', account::text, true);
         RETURN QUERY SELECT o.operation_id, o.name, o.time_zone, m.role
           FROM membership m JOIN operation o ON o.operation_id = m.operation_id
          WHERE m.account_id = account AND m.ended_at IS NULL ORDER BY o.created_at, o.operation_id;
       END $$`,
    ]);
  }

  down(): Promise<never> {
    return forwardOnly(this.name);
  }
}
