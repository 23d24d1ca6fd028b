import { base64, leafHash, utf8, type FileToPack } from '@furrowmark/log';
import { z } from 'zod';
import type { OperationScope } from '../database/index.ts';
import type { Documents, StoredDocument } from '../documents/index.ts';
import type { LogReader } from '../log/index.ts';

const openings = z.array(
  z.object({ record_id: z.string(), pointer: z.string(), value: z.instanceof(Buffer), salt: z.instanceof(Buffer) }),
);
const PAGE = 5_000;

/** How much an archive holds. */
export interface Archived {
  readonly files: readonly FileToPack[];
  readonly entries: number;
  /** SHA-256 of documents whose file is gone or no longer what it was: left out, so that the verifier names them too. */
  readonly withoutFile: readonly string[];
}

/**
 * The files of an operation's archive, as docs/log-format.md lays it out. The checkpoint is signed first and the
 * entries are those it covers, so that what is recorded meanwhile does not make the two disagree.
 */
export async function archiveFiles(
  log: LogReader,
  scope: OperationScope,
  documents: Documents,
  operationId: string,
): Promise<Archived> {
  const checkpoint = await log.checkpoint(operationId);
  const size = Number(checkpoint.split('\n', 2)[1]);
  const entries: Uint8Array[] = [];
  const hashes: Uint8Array[] = [];
  for (let from = 0; from < size;) {
    const page = await log.entries(operationId, from, size, PAGE);
    for (const bytes of page.bytes) {
      entries.push(bytes, utf8('\n'));
      hashes.push(leafHash(bytes));
    }
    from += page.bytes.length;
    if (page.bytes.length === 0) throw new Error(`the log of ${operationId} ends before entry ${size}`);
  }
  const manifest = { format: 'furrowmark-archive', version: 1, operationId, partial: false };
  const attached = await documents.audit(operationId);
  return {
    entries: size,
    withoutFile: attached.filter(({ kept }) => kept !== 'matches').map(({ sha256 }) => sha256),
    files: [
      whole('manifest.json', utf8(`${JSON.stringify(manifest)}\n`)),
      whole('checkpoint', utf8(checkpoint)),
      whole('key', utf8(`${log.verifierKey(operationId)}\n`)),
      inParts('leaf-hashes', hashes),
      inParts('entries.ndjson', entries),
      whole('openings.ndjson', await openingLines(scope, operationId)),
      ...attached.filter(({ kept }) => kept === 'matches').map((one) => document(documents, operationId, one)),
    ],
  };
}

/** The values behind the seals, where they have not been erased. */
async function openingLines(scope: OperationScope, operationId: string): Promise<Uint8Array> {
  const rows = await scope.run(operationId, async (manager) =>
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

const whole = (name: string, body: Uint8Array): FileToPack => ({ name, size: body.length, body });

const inParts = (name: string, body: readonly Uint8Array[]): FileToPack => ({
  name,
  size: body.reduce((sum, part) => sum + part.length, 0),
  body,
});

/** A document's file, opened when it is its turn. */
function document(documents: Documents, operationId: string, stored: StoredDocument): FileToPack {
  const { sha256, byteLength } = stored;
  async function* body(): AsyncGenerator<Uint8Array> {
    for await (const chunk of await documents.open(operationId, stored)) if (Buffer.isBuffer(chunk)) yield chunk;
  }
  return { name: `documents/${sha256}`, size: byteLength, body: body() };
}
