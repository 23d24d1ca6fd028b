import { createHash } from 'node:crypto';
import { createWriteStream } from 'node:fs';
import { mkdir, readdir, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';
import type { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { codeOf } from '../error-code.ts';

/** What a report became. */
export interface Written {
  readonly byteLength: number;
  readonly sha256: Buffer;
}

/** What was made in the background, until it is fetched or its time is over: `reports/<operation>/<job>-<attempt>`. */
export class ReportFiles {
  constructor(private readonly folder: string) {}

  /** Where an attempt's bytes are. Each attempt has a file of its own, so that two never write into one. */
  place(operationId: string, jobId: string, attempt: number): string {
    return join(this.folder, operationId, `${jobId}-${attempt}`);
  }

  /** Writes a report as it is made, hashing as it goes; leaves nothing behind where it fails. */
  async write(path: string, source: Readable, signal: AbortSignal): Promise<Written> {
    await mkdir(join(path, '..'), { recursive: true, mode: 0o700 });
    const hash = createHash('sha256');
    let byteLength = 0;
    try {
      await pipeline(
        source,
        async function* (chunks: AsyncIterable<Buffer>) {
          for await (const chunk of chunks) {
            byteLength += chunk.length;
            hash.update(chunk);
            yield chunk;
          }
        },
        createWriteStream(path, { mode: 0o600, flush: true }),
        { signal },
      );
    } catch (error) {
      await rm(path, { force: true });
      throw error;
    }
    return { byteLength, sha256: hash.digest() };
  }

  remove(path: string): Promise<void> {
    return rm(path, { force: true });
  }

  /** The operations that have files here. */
  operations(): Promise<string[]> {
    return this.#names(this.folder);
  }

  /** Removes files of jobs that are known no more, once they are a day old: another process may just be writing one. */
  async tidy(operationId: string, known: ReadonlySet<string>, now: number): Promise<void> {
    for (const name of await this.#names(join(this.folder, operationId))) {
      const path = join(this.folder, operationId, name);
      const jobId = name.slice(0, 36);
      const { mtimeMs } = await stat(path).catch(() => ({ mtimeMs: now }));
      if (!known.has(jobId) && mtimeMs < now - 86_400_000) await rm(path, { force: true });
    }
  }

  async #names(folder: string): Promise<string[]> {
    try {
      return await readdir(folder);
    } catch (error) {
      if (codeOf(error) === 'ENOENT') return [];
      throw error;
    }
  }
}
