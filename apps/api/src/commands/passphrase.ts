import { createReadStream } from 'node:fs';
import { open, readFile } from 'node:fs/promises';
import { isSealed, sealed, unsealedFile } from '../archive/index.ts';
import { Refusal } from './command.ts';

/** The passphrase that a file holds (its first line), or null where no file is named. */
export async function passphraseIn(file: string | undefined): Promise<string | null> {
  if (file === undefined) return null;
  const text = (await readFile(file, 'utf8')).split(/\r?\n/, 1)[0] ?? '';
  if (text.length < 12) throw new Refusal('a passphrase has at least 12 characters; several words are best.');
  return text;
}

/** The bytes as they are to be written: under the passphrase, where there is one. */
export const under = (bytes: AsyncIterable<Uint8Array>, passphrase: string | null): AsyncIterable<Uint8Array> =>
  passphrase === null ? bytes : sealed(bytes, passphrase);

/** A file's content; opened, where it is one under a passphrase. */
export async function contentOf(path: string, passphrase: string | null): Promise<AsyncIterable<Uint8Array>> {
  const file = await open(path);
  const start = Buffer.alloc(64);
  try {
    await file.read(start, 0, start.length, 0);
  } finally {
    await file.close();
  }
  if (!isSealed(start)) return chunksOf(path);
  if (passphrase === null)
    throw new Refusal(`${path} is under a passphrase: name the file that holds it with --passphrase-file.`);
  return unsealedFile(chunksOf(path), passphrase);
}

async function* chunksOf(path: string): AsyncGenerator<Uint8Array> {
  for await (const chunk of createReadStream(path)) if (Buffer.isBuffer(chunk)) yield chunk;
}
