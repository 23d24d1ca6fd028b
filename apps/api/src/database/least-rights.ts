import type { DataSource } from 'typeorm';
import { z } from 'zod';

const answer = z.array(
  z.object({ role: z.string(), superuser: z.boolean(), bypass: z.boolean(), owner: z.boolean(), changes: z.boolean() }),
);

/**
 * Refuses to go on as a role that could rewrite the log or look past an operation's border: a superuser, one that
 * bypasses row-level security, the tables' owner or a member of it, one that may UPDATE, DELETE or TRUNCATE the log.
 */
export async function assertLeastRights(service: DataSource): Promise<void> {
  const [role] = answer.parse(
    await service.query(`
      SELECT current_user::text AS role, r.rolsuper AS superuser, r.rolbypassrls AS bypass,
             pg_has_role(current_user, c.relowner, 'MEMBER') AS owner,
             has_table_privilege(c.oid, 'UPDATE') OR has_table_privilege(c.oid, 'DELETE')
               OR has_table_privilege(c.oid, 'TRUNCATE') AS changes
        FROM pg_roles r, pg_class c
       WHERE r.rolname = current_user AND c.oid = 'public.log_entry'::regclass`),
  );
  if (!role) throw new Error('The database does not say what rights the service has.');
  const reasons = [
    role.superuser ? 'is a superuser' : '',
    role.bypass ? 'bypasses row-level security' : '',
    role.owner ? 'owns the tables' : '',
    role.changes ? 'may change or delete log entries' : '',
  ].filter(Boolean);
  if (reasons.length > 0) throw new Error(`The service refuses to run as ${role.role}, which ${reasons.join(', ')}.`);
}
