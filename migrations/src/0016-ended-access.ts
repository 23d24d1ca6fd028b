import type { MigrationInterface, QueryRunner } from 'typeorm';
import { forwardOnly, run } from './statements.ts';

/** When each stopped opening anything; NULL where it has not, or never will by itself. */
const ends = {
  access_token: `least(withdrawn_at, expires_at, coalesce(last_used_at, created_at) + make_interval(mins => idle_minutes))`,
  invitation: `least(used_at, withdrawn_at, expires_at)`,
  attempt: `greatest(last_at, locked_until)`,
} as const;

/**
 * Removes the hashes of tokens, sessions and invitations thirty days after they stopped opening anything, and what was
 * counted of failed sign-ins. By the database's own clock, and through a function that can do nothing else: the service's
 * role still may delete none of them. What the log says of who was let in stays for ever.
 */
export class EndedAccess1764000000016 implements MigrationInterface {
  readonly name = 'EndedAccess1764000000016';

  up(queryRunner: QueryRunner): Promise<void> {
    const tables = Object.entries(ends).map(([table, end]) => ({ table, long: `${end} < now() - interval '30 days'` }));
    return run(queryRunner, [
      // For the function, which runs as the tables' owner: row-level security holds for that one too.
      ...tables.map(({ table, long }) => `CREATE POLICY long_ended ON ${table} TO CURRENT_USER USING (${long})`),
      `CREATE FUNCTION purge_ended_access() RETURNS integer
         LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
       DECLARE removed integer := 0; n integer;
       BEGIN
         ${tables.map(({ table, long }) => `DELETE FROM ${table} WHERE ${long}; GET DIAGNOSTICS n = ROW_COUNT; removed := removed + n;`).join('\n         ')}
         RETURN removed;
       END $$`,
      `REVOKE EXECUTE ON FUNCTION purge_ended_access() FROM PUBLIC`,
      `GRANT EXECUTE ON FUNCTION purge_ended_access() TO furrowmark_service`,
    ]);
  }

  down(): Promise<never> {
    return forwardOnly(this.name);
  }
}
