import { readdir, readFile } from 'node:fs/promises';
import { dirname, join, relative, sep } from 'node:path';
import { mkdir, open } from 'node:fs/promises';
import { NotReadable, unpackTar, type FileToPack } from '@furrowmark/log';
import { codeOf } from '../error-code.ts';

/** What the signing keys' own backup holds: seeds, and what they signed last. */
const places = ['log-signing-key', 'log-keys', 'log-signed'] as const;

export async function* keyFiles(dataDir: string): AsyncGenerator<FileToPack> {
  for (const place of places) {
    for (const path of await filesIn(join(dataDir, place))) {
      const body = await readFile(path);
      yield { name: relative(dataDir, path).split(sep).join('/'), size: body.length, body };
    }
  }
}

async function filesIn(path: string): Promise<string[]> {
  try {
    const found = await readdir(path, { recursive: true, withFileTypes: true });
    return found.filter((entry) => entry.isFile()).map((entry) => join(entry.parentPath, entry.name));
  } catch (error) {
    if (codeOf(error) === 'ENOTDIR') return [path];
    if (codeOf(error) === 'ENOENT') return [];
    throw error;
  }
}

/** Puts keys back; a key that is here already is never written over. Gives how many files were written. */
export async function restoreKeys(dataDir: string, tar: AsyncIterable<Uint8Array>): Promise<number> {
  let written = 0;
  for await (const { name, body } of unpackTar(tar)) {
    if (!places.some((place) => name === place || name.startsWith(`${place}/`)))
      throw new NotReadable(`${name} does not belong in a backup of keys`);
    const chunks: Uint8Array[] = [];
    for await (const chunk of body) chunks.push(chunk);
    const [path, content] = [join(dataDir, name), Buffer.concat(chunks)];
    await mkdir(dirname(path), { recursive: true, mode: 0o700 });
    try {
      const file = await open(path, 'wx', 0o600);
      await file.writeFile(content);
      await file.sync();
      await file.close();
      written += 1;
    } catch (error) {
      if (codeOf(error) !== 'EEXIST' || !content.equals(await readFile(path))) throw error;
    }
  }
  return written;
}
