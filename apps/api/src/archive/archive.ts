import { Injectable } from '@nestjs/common';
import { base64, utf8, type FileToPack } from '@furrowmark/log';
import type { EntityManager } from 'typeorm';
import { z } from 'zod';
import { OperationScope, Replica } from '../database/index.ts';
import { Documents, type StoredDocument } from '../documents/index.ts';
import { checkpointIn, int8, LogReader, Signing } from '../log/index.ts';
import { cosignedCheckpoints } from './cosigned.ts';

const sizes = z.array(z.object({ count: int8, bytes: int8 }));
const pages = z.array(z.object({ seq: int8, bytes: z.instanceof(Buffer), leaf_hash: z.instanceof(Buffer) }));
const openings = z.array(
  z.object({ record_id: z.string(), pointer: z.string(), value: z.instanceof(Buffer), salt: z.instanceof(Buffer) }),
);
const digests = z.array(z.object({ sha256: z.string() }));
const inOnePage = 2_000;

/** What an archive holds. */
export interface Archived {
  readonly files: AsyncIterable<FileToPack>;
  readonly entries: number;
  /** SHA-256 of documents whose file is gone or no longer what it was: left out, so that the verifier names them too. */
  readonly withoutFile: readonly string[];
}

/** What goes into an archive. */
export interface ArchiveWish {
  /** The values behind the seals: names and addresses. */
  readonly openings: boolean;
  /** Write what is there even where it is not what was signed, with the last checkpoint signed: to find out what happened. */
  readonly evenIfAltered?: boolean;
}

/**
 * Writes an operation's archive, as docs/log-format.md lays it out. The checkpoint is signed first and the entries are
 * those it covers, so that what is recorded meanwhile does not make the two disagree. Entries are read a page at a time.
 */
@Injectable()
export class Archives {
  constructor(
    private readonly log: LogReader,
    private readonly signing: Signing,
    private readonly scope: OperationScope,
    private readonly documents: Documents,
    private readonly replica: Replica,
  ) {}

  async of(operationId: string, wish: ArchiveWish): Promise<Archived> {
    await this.signing.handOver(operationId);
    const checkpoint = await this.#checkpoint(operationId, wish);
    const { size } = checkpointIn(checkpoint);
    const attached = await this.#documents(operationId, size);
    const { count, bytes } = await this.scope.run(operationId, (manager) => extentOf(manager, operationId, size));
    return {
      entries: count,
      withoutFile: attached.filter(({ kept }) => kept !== 'matches').map(({ sha256 }) => sha256),
      files: this.#files(operationId, wish, { checkpoint, size, count, bytes, attached }),
    };
  }

  /** The documents that the entries name: one that was sent but is not recorded (yet) is no part of the log. */
  async #documents(operationId: string, size: number): Promise<Awaited<ReturnType<Documents['audit']>>> {
    const kept = await this.documents.audit(operationId);
    const named = await this.scope.run(operationId, async (manager) =>
      digests.parse(
        await manager.query(
          `SELECT d.sha256 FROM unnest($2::text[]) AS d (sha256) WHERE EXISTS (
             SELECT FROM log_entry e WHERE e.operation_id = $1 AND e.seq < $3
                AND e.type IN ('document.attached', 'record.amended')
                AND position(convert_to('"sha256":"' || d.sha256 || '"', 'UTF8') IN e.bytes) > 0)`,
          [operationId, kept.map(({ sha256 }) => sha256), size],
        ),
      ),
    );
    const known = new Set(named.map(({ sha256 }) => sha256));
    return kept.filter(({ sha256 }) => known.has(sha256));
  }

  async #checkpoint(operationId: string, { evenIfAltered }: ArchiveWish): Promise<string> {
    try {
      return await this.log.checkpoint(operationId);
    } catch (error) {
      const last = evenIfAltered === true ? await this.signing.remembered(operationId) : null;
      if (last === null) throw error;
      return last;
    }
  }

  async *#files(
    operationId: string,
    wish: ArchiveWish,
    {
      checkpoint,
      size,
      count,
      bytes,
      attached,
    }: {
      checkpoint: string;
      size: number;
      count: number;
      bytes: number;
      attached: Awaited<ReturnType<Documents['audit']>>;
    },
  ): AsyncGenerator<FileToPack> {
    const manifest = { format: 'furrowmark-archive', version: 1, operationId, partial: false };
    yield whole('manifest.json', utf8(`${JSON.stringify(manifest)}\n`));
    yield whole('checkpoint', utf8(checkpoint));
    const key = await this.log.verifierKey(operationId);
    if (key !== null) yield whole('key', utf8(`${key}\n`));
    const earlier = await this.scope.run(operationId, (manager) =>
      cosignedCheckpoints(manager, this.signing, operationId, size),
    );
    for (const [at, note] of earlier) yield whole(`checkpoints/${at}`, utf8(note));
    const read = (): AsyncGenerator<Entry> => this.#entries(operationId, size, wish.evenIfAltered !== true);
    // Of a log with gaps the stored hashes are no list any more.
    if (count === size) yield { name: 'leaf-hashes', size: size * 32, body: mapped(read(), ({ leaf }) => [leaf]) };
    yield { name: 'entries.ndjson', size: bytes, body: mapped(read(), (entry) => [entry.bytes, newline]) };
    if (wish.openings) yield whole('openings.ndjson', await this.#openingLines(operationId));
    for (const one of attached) {
      if (one.kept === 'matches') yield this.#document(operationId, one);
      else if (one.kept === 'altered' && wish.evenIfAltered === true) yield await this.#altered(operationId, one);
    }
  }

  /** `anywhere`: from the replica too, as far as it has them. */
  async *#entries(operationId: string, size: number, anywhere: boolean): AsyncGenerator<Entry> {
    for (let from = -1; ;) {
      const page = async (manager: EntityManager) =>
        pages.parse(
          await manager.query(
            `SELECT seq, bytes, leaf_hash FROM log_entry
              WHERE operation_id = $1 AND seq > $2 AND seq < $3 ORDER BY seq LIMIT $4`,
            [operationId, from, size, inOnePage],
          ),
        );
      const copied = anywhere && from < size - 1 ? await this.replica.run(operationId, page) : null;
      // A replica that is behind has fewer.
      const isWhole = copied?.length === Math.min(inOnePage, size - 1 - from);
      const rows = copied !== null && isWhole ? copied : await this.scope.run(operationId, page);
      for (const { bytes, leaf_hash: leaf } of rows) yield { bytes, leaf };
      const last = rows.at(-1);
      if (last === undefined) return;
      from = last.seq;
    }
  }

  /** The values behind the seals, where they have not been erased. */
  async #openingLines(operationId: string): Promise<Uint8Array> {
    const rows = await this.scope.run(operationId, async (manager) =>
      openings.parse(
        await manager.query(
          'SELECT record_id, pointer, value, salt FROM opening WHERE operation_id = $1 ORDER BY record_id, pointer',
          [operationId],
        ),
      ),
    );
    const lines = rows.map(({ record_id: recordId, pointer: path, value, salt }) => {
      const opened: unknown = JSON.parse(value.toString('utf8'));
      return `${JSON.stringify({ recordId, path, value: opened, salt: base64(salt) })}\n`;
    });
    return utf8(lines.join(''));
  }

  /** A document's file, opened when it is its turn. */
  #document(operationId: string, stored: StoredDocument): FileToPack {
    const { documents } = this;
    async function* body(): AsyncGenerator<Uint8Array> {
      for await (const chunk of await documents.open(operationId, stored)) if (Buffer.isBuffer(chunk)) yield chunk;
    }
    return { name: `documents/${stored.sha256}`, size: stored.byteLength, body: body() };
  }

  /** A file that is not what was attached any more, as it lies there: the verifier says *altered*, not *missing*. */
  async #altered(operationId: string, stored: StoredDocument): Promise<FileToPack> {
    const { byteLength, body } = await this.documents.asItIs(operationId, stored);
    return { name: `documents/${stored.sha256}`, size: byteLength, body };
  }
}

interface Entry {
  readonly bytes: Uint8Array;
  /** As stored beside the entry: never trusted, but it tells which entry is wrong. */
  readonly leaf: Uint8Array;
}

const newline = utf8('\n');
const whole = (name: string, body: Uint8Array): FileToPack => ({ name, size: body.length, body });

async function* mapped(
  entries: AsyncIterable<Entry>,
  parts: (entry: Entry) => Uint8Array[],
): AsyncGenerator<Uint8Array> {
  for await (const entry of entries) yield* parts(entry);
}

/** How many entries there are below a size, and how many bytes as lines. */
async function extentOf(
  manager: EntityManager,
  operationId: string,
  size: number,
): Promise<{ count: number; bytes: number }> {
  const [row] = sizes.parse(
    await manager.query(
      `SELECT count(*) AS count, coalesce(sum(octet_length(bytes) + 1), 0) AS bytes
         FROM log_entry WHERE operation_id = $1 AND seq < $2`,
      [operationId, size],
    ),
  );
  return row ?? { count: 0, bytes: 0 };
}
