import { createHash } from 'node:crypto';
import { createReadStream, createWriteStream } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { NotReadable, unpackTar } from '@furrowmark/log';

/** An archive on disk: each file's place in it is known, so every one can be read when it is its turn. */
export interface Received {
  /** SHA-256 of the archive itself, hexadecimal. */
  readonly sha256: string;
  readonly names: readonly string[];
  has(name: string): boolean;
  read(name: string): AsyncIterable<Uint8Array>;
  whole(name: string): Promise<Uint8Array | null>;
}

/** The archive has more bytes than are taken. */
export class TooMuch extends Error {
  override readonly name = 'TooMuch';
}

/** Writes a stream to a private file, does the work with it, and takes it away. Rejects with NotReadable or TooMuch. */
export async function received<T>(source: Readable, most: number, work: (archive: Received) => Promise<T>): Promise<T> {
  const folder = await mkdtemp(join(tmpdir(), 'furrowmark-import-'));
  try {
    const path = join(folder, 'archive.tar');
    const hash = createHash('sha256');
    let length = 0;
    await pipeline(
      source,
      async function* (chunks: AsyncIterable<Buffer>) {
        for await (const chunk of chunks) {
          length += chunk.length;
          if (length > most) throw new TooMuch(`more than ${most} bytes`);
          hash.update(chunk);
          yield chunk;
        }
      },
      createWriteStream(path, { mode: 0o600 }),
    );
    return await work(await opened(path, hash.digest('hex')));
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

async function opened(path: string, sha256: string): Promise<Received> {
  const places = new Map<string, { readonly start: number; readonly size: number }>();
  for await (const { name, size, offset } of unpackTar(createReadStream(path))) {
    if (places.has(name)) throw new NotReadable(`${name} is in the archive twice`);
    places.set(name, { start: offset, size });
  }
  async function* read(name: string): AsyncGenerator<Uint8Array> {
    const { start, size } = places.get(name) ?? { start: 0, size: 0 };
    if (size === 0) return;
    for await (const chunk of createReadStream(path, { start, end: start + size - 1 })) {
      if (Buffer.isBuffer(chunk)) yield chunk;
    }
  }
  return {
    sha256,
    names: [...places.keys()],
    has: (name) => places.has(name),
    read,
    whole: async (name) => {
      if (!places.has(name)) return null;
      const chunks: Uint8Array[] = [];
      for await (const chunk of read(name)) chunks.push(chunk);
      return Buffer.concat(chunks);
    },
  };
}
