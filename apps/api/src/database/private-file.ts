import { mkdir, open, readFile } from 'node:fs/promises';
import { dirname } from 'node:path';
import { codeOf } from '../error-code.ts';

/**
 * The content of a file that only this user may read. Made with `fresh()` where it is not there yet; of two processes
 * that make it at the same time one wins, and both get the winner's.
 */
export async function privateFile(path: string, fresh: () => string): Promise<string> {
  await mkdir(dirname(path), { recursive: true });
  try {
    const file = await open(path, 'wx', 0o600);
    try {
      const content = fresh();
      await file.writeFile(content);
      await file.sync();
      return content;
    } finally {
      await file.close();
    }
  } catch (error) {
    if (codeOf(error) !== 'EEXIST') throw error;
  }
  return readFile(path, 'utf8');
}
