import type { DataSource } from 'typeorm';
import { z } from 'zod';

const answer = z.array(
  z.object({
    role: z.string(),
    superuser: z.boolean(),
    bypass: z.boolean(),
    roles: z.boolean(),
    databases: z.boolean(),
    replication: z.boolean(),
    owner: z.boolean(),
    changes: z.boolean(),
    creates: z.boolean(),
    everything: z.boolean(),
  }),
);

/**
 * Refuses to go on as a role that could rewrite the log or look past an operation's border: a superuser, one that
 * bypasses row-level security, makes roles or databases or replicates; the tables' owner or a member of it; one that may
 * UPDATE, DELETE or TRUNCATE what is only appended to, or make tables; a member of the server's roles for all data or
 * for the server's files and programs.
 */
export async function assertLeastRights(service: DataSource): Promise<void> {
  const [role] = answer.parse(
    await service.query(`
      SELECT current_user::text AS role, r.rolsuper AS superuser, r.rolbypassrls AS bypass,
             r.rolcreaterole AS roles, r.rolcreatedb AS databases, r.rolreplication AS replication,
             (SELECT bool_or(pg_has_role(current_user, c.relowner, 'MEMBER'))
                FROM pg_class c WHERE c.relnamespace = 'public'::regnamespace AND c.relkind IN ('r', 'p')) AS owner,
             (SELECT bool_or(has_table_privilege(c.oid, 'DELETE') OR has_table_privilege(c.oid, 'TRUNCATE')
                             OR (has_any_column_privilege(c.oid, 'UPDATE') AND c.relname <> 'log_head'))
                FROM pg_trigger t JOIN pg_class c ON c.oid = t.tgrelid
               WHERE t.tgname = 'append_only' AND c.relnamespace = 'public'::regnamespace) AS changes,
             has_schema_privilege('public', 'CREATE')
               OR has_database_privilege(current_database(), 'CREATE') AS creates,
             (SELECT bool_or(pg_has_role(current_user, p.oid, 'MEMBER')) FROM pg_roles p
               WHERE p.rolname IN ('pg_read_all_data', 'pg_write_all_data', 'pg_read_server_files',
                                   'pg_write_server_files', 'pg_execute_server_program')) AS everything
        FROM pg_roles r WHERE r.rolname = current_user`),
  );
  if (!role) throw new Error('The database does not say what rights the service has.');
  const reasons = [
    role.superuser ? 'is a superuser' : '',
    role.bypass ? 'bypasses row-level security' : '',
    role.roles ? 'may make roles' : '',
    role.databases ? 'may make databases' : '',
    role.replication ? 'may replicate' : '',
    role.owner ? 'owns the tables' : '',
    role.changes ? 'may change or delete log entries' : '',
    role.creates ? 'may make tables' : '',
    role.everything ? 'may read or write everything on the server' : '',
  ].filter(Boolean);
  if (reasons.length > 0) throw new Error(`The service refuses to run as ${role.role}, which ${reasons.join(', ')}.`);
}
