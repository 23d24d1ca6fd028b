import { createWriteStream } from 'node:fs';
import { rename, rm } from 'node:fs/promises';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { packTar } from '@furrowmark/log';
import { archiveFiles } from '../archive/index.ts';
import { OperationScope } from '../database/index.ts';
import { Documents } from '../documents/index.ts';
import { LogReader } from '../log/index.ts';
import { Refusal, type Command } from './command.ts';
import { operationIdOf, withOperation } from './operation-here.ts';
import { options } from './options.ts';

export const exportArchive: Command = {
  verb: 'export',
  usage: '--operation ID --out FILE.tar',
  purpose:
    'Writes the whole log of an operation, its newest checkpoint, the names behind the seals and the attached documents into one archive that furrowmark-verify can check offline.',
  async run(args) {
    const { given, rest } = options(args, ['operation', 'out']);
    if (rest.length > 0) throw new Refusal(`"${rest.join(' ')}" is not understood.`);
    const operationId = operationIdOf(given.operation);
    const { out } = given;
    if (out === undefined) throw new Refusal('--out FILE.tar is needed.');
    const { entries, withoutFile } = await withOperation(operationId, async ({ context }) => {
      const [log, scope, documents] = [context.get(LogReader), context.get(OperationScope), context.get(Documents)];
      const archived = await archiveFiles(log, scope, documents, operationId);
      await writeWhole(out, packTar(archived.files));
      return archived;
    });
    console.log(`${out}: ${entries} entries`);
    for (const sha256 of withoutFile)
      console.error(`The file of document ${sha256} is missing or altered; it was left out.`);
    console.error('The archive holds names and addresses. Hand it only to those who may read them.');
    return 0;
  },
};

/** Writes beside the name and moves it there: a half-written archive is never taken for a whole one. */
async function writeWhole(path: string, bytes: AsyncIterable<Uint8Array>): Promise<void> {
  const part = `${path}.${process.pid}.part`;
  try {
    await pipeline(Readable.from(bytes), createWriteStream(part, { mode: 0o600 }));
    await rename(part, path);
  } catch (error) {
    await rm(part, { force: true });
    throw error;
  }
}
