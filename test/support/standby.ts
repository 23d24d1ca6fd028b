import { execFile } from 'node:child_process';
import { appendFile, chmod, chown, cp, mkdir, rm, stat, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { Client } from 'pg';
import { startEmbeddedDatabase, type EmbeddedDatabase } from '../../apps/api/src/database/embedded.ts';

const run = promisify(execFile);

/**
 * A copy of the running database under `from`, taken as PostgreSQL's manual says for the low-level interface (chapter
 * “Continuous Archiving”), because the embedded PostgreSQL has no `pg_basebackup`. Its settings are those given, its
 * `signal` file says what it is to become. Not started yet.
 */
export async function baseBackup(
  from: { readonly dataDir: string; readonly ownerUrl: string },
  to: string,
  { settings, signal }: { readonly settings: readonly string[]; readonly signal: 'standby' | 'recovery' },
): Promise<void> {
  await mkdir(to, { recursive: true });
  await chmod(to, 0o755);
  const [source, copy] = [join(from.dataDir, 'pg'), join(to, 'pg')];
  // One session: PostgreSQL ends the backup with the connection that began it.
  const owner = new Client({ connectionString: from.ownerUrl });
  await owner.connect();
  try {
    await owner.query(`SELECT pg_backup_start('test', true)`);
    // A file that goes away while it is copied is one that the log makes anew.
    await run('cp', ['-a', source, copy]).catch(() => undefined);
    const { rows } = await owner.query('SELECT labelfile FROM pg_backup_stop(false)');
    await rm(join(copy, 'postmaster.pid'), { force: true });
    await writeFile(join(copy, 'backup_label'), String(rows[0].labelfile));
  } finally {
    await owner.end();
  }
  await writeFile(join(copy, `${signal}.signal`), '');
  await appendFile(join(copy, 'postgresql.auto.conf'), `${settings.join('\n')}\n`);
  const { uid, gid } = await stat(copy);
  for (const name of ['backup_label', `${signal}.signal`]) await chown(join(copy, name), uid, gid);
  await cp(join(from.dataDir, 'owner-password'), join(to, 'owner-password'));
}

/** A streaming replica of the running database, started. */
export async function standbyOf(
  from: { readonly dataDir: string; readonly ownerUrl: string },
  to: string,
): Promise<EmbeddedDatabase> {
  const { hostname, port, username, password } = new URL(from.ownerUrl);
  const settings = [`primary_conninfo = 'host=${hostname} port=${port} user=${username} password=${password}'`];
  await baseBackup(from, to, { settings, signal: 'standby' });
  return startEmbeddedDatabase(to);
}
