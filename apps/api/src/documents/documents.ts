import type { Readable } from 'node:stream';
import { Injectable } from '@nestjs/common';
import { z } from 'zod';
import type { Member } from '../access/index.ts';
import { Clock } from '../clock.ts';
import { OperationScope } from '../database/index.ts';
import { ProblemAnswer } from '../http/index.ts';
import { CutShort, DocumentFiles, TooLarge, type Kept } from './document-files.ts';
import { isMediaType, mediaTypeOf, mediaTypes, type MediaType } from './media-types.ts';

/** A document has at most so many bytes (25 MiB). */
export const mostBytes = 25 * 1024 * 1024;

const rows = z.array(
  z
    .object({ sha256: z.instanceof(Buffer), byte_length: z.number(), media_type: z.string().refine(isMediaType) })
    .transform((row) => ({
      sha256: row.sha256.toString('hex'),
      byteLength: row.byte_length,
      mediaType: row.media_type,
    })),
);

/** A document beside the log. Records name it by its SHA-256, 64 lower-case hexadecimal digits. */
export interface StoredDocument {
  readonly sha256: string;
  readonly byteLength: number;
  readonly mediaType: MediaType;
}

/** Photos, lab reports and certificates: the log has their digest, the data folder their bytes. */
@Injectable()
export class Documents {
  constructor(
    private readonly scope: OperationScope,
    private readonly files: DocumentFiles,
    private readonly clock: Clock,
  ) {}

  /** Takes a document. `fresh` is false where the operation has it already. 413, 415 and 422 where it will not do. */
  async take(member: Member, source: Readable, said: string): Promise<StoredDocument & { readonly fresh: boolean }> {
    const arrived = await this.files.receive(source, mostBytes).catch((error: unknown) => {
      if (error instanceof TooLarge) throw new ProblemAnswer('too-large', 'A document has at most 25 MiB.');
      if (error instanceof CutShort) throw new ProblemAnswer('bad-request', 'The document did not arrive whole.');
      throw error;
    });
    try {
      if (arrived.byteLength === 0) {
        throw new ProblemAnswer('invalid-body', 'The document is empty.', [{ pointer: '', detail: 'has no bytes' }]);
      }
      const mediaType = await mediaTypeOf(arrived.path, said);
      if (mediaType === null) {
        const taken = Object.keys(mediaTypes).join(', ');
        throw new ProblemAnswer(
          'unsupported-media-type',
          `The content is not what Content-Type says, or not one of those taken: ${taken}.`,
        );
      }
      const { sha256, byteLength } = arrived;
      const before = await this.find(member.operationId, sha256);
      // A file that was lost or altered is put right by whoever still has it.
      if (before === null || (await this.files.check(member.operationId, sha256)) !== 'matches') {
        await this.files.keep(member.operationId, arrived);
      }
      if (before !== null) return { ...before, fresh: false };
      await this.scope.run(member.operationId, (manager) =>
        manager.query('INSERT INTO document VALUES ($1, $2, $3, $4, $5, $6) ON CONFLICT DO NOTHING', [
          ...[member.operationId, Buffer.from(sha256, 'hex'), byteLength, mediaType],
          ...[new Date(this.clock.now()), member.accountId],
        ]),
      );
      return { sha256, byteLength, mediaType, fresh: true };
    } finally {
      await arrived.discard();
    }
  }

  async find(operationId: string, sha256: string): Promise<StoredDocument | null> {
    const found = await this.scope.run(operationId, (manager) =>
      manager.query('SELECT sha256, byte_length, media_type FROM document WHERE operation_id = $1 AND sha256 = $2', [
        operationId,
        Buffer.from(sha256, 'hex'),
      ]),
    );
    return rows.parse(found)[0] ?? null;
  }

  /** The document's bytes, checked against its digest before the first is given out. */
  async open(operationId: string, { sha256 }: StoredDocument): Promise<Readable> {
    const kept = await this.files.check(operationId, sha256);
    if (kept === 'missing') {
      throw new ProblemAnswer(
        'document-missing',
        'The file is not there any more. Attach it again from your own copy.',
      );
    }
    if (kept === 'altered') {
      throw new ProblemAnswer('document-altered', 'The file is not the one that was attached: its digest differs.');
    }
    return this.files.read(operationId, sha256);
  }

  /** The bytes as they lie there, whatever became of them: to find out what happened, never to be shown. */
  async asItIs(operationId: string, { sha256 }: StoredDocument): Promise<{ byteLength: number; body: Readable }> {
    const byteLength = await this.files.byteLength(operationId, sha256);
    return { byteLength, body: this.files.read(operationId, sha256) };
  }

  /** Every document of an operation, and whether its file is still what it was. */
  async audit(operationId: string): Promise<(StoredDocument & { readonly kept: Kept })[]> {
    const found = await this.scope.run(operationId, async (manager) =>
      rows.parse(
        await manager.query(
          'SELECT sha256, byte_length, media_type FROM document WHERE operation_id = $1 ORDER BY stored_at, sha256',
          [operationId],
        ),
      ),
    );
    const checked = [];
    for (const each of found) checked.push({ ...each, kept: await this.files.check(operationId, each.sha256) });
    return checked;
  }
}
