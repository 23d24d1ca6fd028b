import { execFile } from 'node:child_process';
import { chown, stat } from 'node:fs/promises';
import { dirname } from 'node:path';
import { promisify } from 'node:util';

const exec = promisify(execFile);

/** Whom PostgreSQL runs as: it refuses root, so root lends it the system's `postgres` user. */
export interface DatabaseUser {
  readonly uid?: number;
  readonly gid?: number;
}

/** The user to run PostgreSQL as; made with `useradd` where root runs us and there is none. */
export async function databaseUser(): Promise<DatabaseUser> {
  if (process.getuid?.() !== 0) return {};
  const known = await lookUp();
  if (known) return known;
  await exec('groupadd', ['--system', 'postgres']).catch(() => undefined);
  await exec('useradd', ['--system', '-g', 'postgres', '-M', '-s', '/usr/sbin/nologin', 'postgres']);
  const made = await lookUp();
  if (!made) throw new Error('Running as root, and no "postgres" user could be made. Run as an ordinary user instead.');
  return made;
}

async function lookUp(): Promise<DatabaseUser | null> {
  try {
    const [uid, gid] = await Promise.all([exec('id', ['-u', 'postgres']), exec('id', ['-g', 'postgres'])]);
    return { uid: Number.parseInt(uid.stdout, 10), gid: Number.parseInt(gid.stdout, 10) };
  } catch {
    return null;
  }
}

/** Makes the user own the path. */
export async function giveTo(user: DatabaseUser, path: string): Promise<void> {
  if (user.uid !== undefined && user.gid !== undefined) await chown(path, user.uid, user.gid);
}

/** Fails with words where a folder above `path` is closed to the user that PostgreSQL runs as. */
export async function assertReachable(user: DatabaseUser, path: string): Promise<void> {
  if (user.uid === undefined) return;
  for (let folder = dirname(path); ; folder = dirname(folder)) {
    const { mode, uid } = await stat(folder);
    if ((mode & 0o001) === 0 && !(uid === user.uid && (mode & 0o100) !== 0)) {
      throw new Error(
        `PostgreSQL does not run as root but as "postgres", and that user cannot enter ${folder}. ` +
          `Run as an ordinary user, choose another folder, or give DATABASE_URL.`,
      );
    }
    if (folder === dirname(folder)) return;
  }
}

/** Runs a program to its end as the user; an error carries what it printed. */
export async function runAs(user: DatabaseUser, program: string, args: readonly string[]): Promise<string> {
  const options = { ...user, cwd: '/', env: { ...process.env, LC_ALL: 'C', LC_MESSAGES: 'C' }, maxBuffer: 1 << 24 };
  try {
    return (await exec(program, [...args], options)).stdout;
  } catch (error) {
    const printed = error instanceof Error && 'stderr' in error ? String(error.stderr).trim() : '';
    throw new Error(`${program} failed: ${printed || String(error)}`, { cause: error });
  }
}
