import { createHash, randomUUID } from 'node:crypto';
import { createReadStream, createWriteStream } from 'node:fs';
import { mkdir, readdir, rename, rm, stat } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import type { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { codeOf } from '../error-code.ts';
import { settled } from './media-types.ts';

/** Bytes that arrived, in a file of their own until it is clear what they are. */
export interface Arrived {
  readonly path: string;
  /** 64 lower-case hexadecimal digits. */
  readonly sha256: string;
  readonly byteLength: number;
  discard(): Promise<void>;
}

export type Kept = 'matches' | 'missing' | 'altered';

/** The sender went away before all was there. */
export class CutShort extends Error {
  override readonly name = 'CutShort';
}

/** The arriving bytes became more than may be kept. */
export class TooLarge extends Error {
  override readonly name = 'TooLarge';
}

/** Documents as files under the data folder, named by operation and SHA-256: `documents/<operation>/<ab>/<sha256>`. */
export class DocumentFiles {
  #tidied: Promise<void> | null = null;

  constructor(private readonly folder: string) {}

  /** Writes a stream to a file, hashing as it goes. Rejects with {@link TooLarge} or {@link CutShort}; leaves nothing behind then. */
  async receive(source: Readable, most: number): Promise<Arrived> {
    const arriving = join(this.folder, 'arriving');
    await mkdir(arriving, { recursive: true, mode: 0o700 });
    await (this.#tidied ??= tidy(arriving));
    const path = join(arriving, randomUUID());
    const hash = createHash('sha256');
    let byteLength = 0;
    try {
      await pipeline(
        source,
        async function* (chunks: AsyncIterable<Buffer>) {
          for await (const chunk of chunks) {
            byteLength += chunk.length;
            if (byteLength > most) throw new TooLarge();
            hash.update(chunk);
            yield chunk;
          }
        },
        createWriteStream(path, { mode: 0o600, flush: true }),
      );
    } catch (error) {
      await rm(path, { force: true });
      const code = codeOf(error);
      if (code === 'ECONNRESET' || code === 'ERR_STREAM_PREMATURE_CLOSE') throw new CutShort();
      throw error;
    }
    return { path, sha256: hash.digest('hex'), byteLength, discard: () => rm(path, { force: true }) };
  }

  /** Puts what arrived in its place. */
  async keep(operationId: string, { path, sha256 }: Arrived): Promise<void> {
    const place = this.#place(operationId, sha256);
    await mkdir(dirname(place), { recursive: true, mode: 0o700 });
    await rename(path, place);
    await settled(dirname(place));
  }

  /** Whether the file is there and still has the bytes that its name promises. */
  async check(operationId: string, sha256: string): Promise<Kept> {
    const hash = createHash('sha256');
    try {
      for await (const chunk of createReadStream(this.#place(operationId, sha256))) {
        if (Buffer.isBuffer(chunk)) hash.update(chunk);
      }
    } catch (error) {
      if (codeOf(error) === 'ENOENT') return 'missing';
      throw error;
    }
    return hash.digest('hex') === sha256 ? 'matches' : 'altered';
  }

  async byteLength(operationId: string, sha256: string): Promise<number> {
    return (await stat(this.#place(operationId, sha256))).size;
  }

  read(operationId: string, sha256: string): Readable {
    return createReadStream(this.#place(operationId, sha256));
  }

  #place(operationId: string, sha256: string): string {
    return join(this.folder, operationId, sha256.slice(0, 2), sha256);
  }
}

const day = 86_400_000;

/** Removes what a killed process left half written. Another process may be writing: only what is a day old. */
async function tidy(folder: string): Promise<void> {
  for (const name of await readdir(folder)) {
    const path = join(folder, name);
    const { mtimeMs } = await stat(path).catch(() => ({ mtimeMs: Date.now() }));
    if (mtimeMs < Date.now() - day) await rm(path, { force: true });
  }
}
