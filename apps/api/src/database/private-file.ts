import { randomUUID } from 'node:crypto';
import { link, mkdir, open, readFile, rm } from 'node:fs/promises';
import { dirname } from 'node:path';
import { codeOf } from '../error-code.ts';

/**
 * The content of a file that only this user may read. Made with `fresh()` where it is not there yet; of two processes
 * that make it at the same time one wins, and both get the winner's. It appears under its name whole or not at all:
 * nobody reads a secret that is just being written, and a killed start leaves no empty one behind.
 */
export async function privateFile(path: string, fresh: () => string): Promise<string> {
  const there = await readOrNull(path);
  if (there !== null) return there;
  await mkdir(dirname(path), { recursive: true });
  const beside = `${path}.${randomUUID()}`;
  try {
    const file = await open(beside, 'wx', 0o600);
    try {
      await file.writeFile(fresh());
      await file.sync();
    } finally {
      await file.close();
    }
    await link(beside, path);
  } catch (error) {
    if (codeOf(error) !== 'EEXIST') throw error;
  } finally {
    await rm(beside, { force: true });
  }
  return readFile(path, 'utf8');
}

async function readOrNull(path: string): Promise<string | null> {
  try {
    return await readFile(path, 'utf8');
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return null;
    throw error;
  }
}
