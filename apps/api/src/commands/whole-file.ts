import { createWriteStream } from 'node:fs';
import { rename, rm } from 'node:fs/promises';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';

/** Writes beside the name and moves it there: a half-written file is never taken for a whole one. Only this user reads it. */
export async function writeWhole(path: string, bytes: AsyncIterable<Uint8Array>): Promise<void> {
  const part = `${path}.${process.pid}.part`;
  try {
    await pipeline(Readable.from(bytes), createWriteStream(part, { mode: 0o600, flush: true }));
    await rename(part, path);
  } catch (error) {
    await rm(part, { force: true });
    throw error;
  }
}
