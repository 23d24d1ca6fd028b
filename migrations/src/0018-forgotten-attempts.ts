import type { MigrationInterface, QueryRunner } from 'typeorm';
import { forwardOnly, run } from './statements.ts';

/**
 * Counts of failed sign-ins are removed two days after the last one, and the wait for it, instead of thirty: a count says
 * nothing after a day (the next failure begins at one), and anybody may add one for a name that nobody has. The second
 * day is for clocks that disagree.
 */
export class ForgottenAttempts1764000000018 implements MigrationInterface {
  readonly name = 'ForgottenAttempts1764000000018';

  up(queryRunner: QueryRunner): Promise<void> {
    const long = {
      access_token: `least(withdrawn_at, expires_at, coalesce(last_used_at, created_at) + make_interval(mins => idle_minutes)) < now() - interval '30 days'`,
      invitation: `least(used_at, withdrawn_at, expires_at) < now() - interval '30 days'`,
      attempt: `greatest(last_at, locked_until) < now() - interval '2 days'`,
    };
    const deletes = Object.entries(long).map(
      ([table, ago]) => `DELETE FROM ${table} WHERE ${ago}; GET DIAGNOSTICS n = ROW_COUNT; removed := removed + n;`,
    );
    return run(queryRunner, [
      `ALTER POLICY long_ended ON attempt USING (${long.attempt})`,
      `CREATE OR REPLACE FUNCTION purge_ended_access() RETURNS integer
         LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
       DECLARE removed integer := 0; n integer;
       BEGIN
         ${deletes.join('\n         ')}
         RETURN removed;
       END $$`,
    ]);
  }

  down(): Promise<never> {
    return forwardOnly(this.name);
  }
}
