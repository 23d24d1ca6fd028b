import { createReadStream } from 'node:fs';
import { open } from 'node:fs/promises';
import { parseVerifierKey } from '@furrowmark/log';
import { Imports } from '../archive/index.ts';
import { openService } from '../service.ts';
import { Refusal } from './command.ts';
import { settings } from './home.ts';

/** Whether a file is a tar archive (its header says so), not a file of records. */
export async function isArchive(path: string): Promise<boolean> {
  const file = await open(path);
  try {
    const { buffer, bytesRead } = await file.read(Buffer.alloc(512), 0, 512, 0);
    return bytesRead === 512 && buffer.toString('latin1', 257, 262) === 'ustar';
  } finally {
    await file.close();
  }
}

/** Takes a whole-operation archive into the data here, under a new manager, whose token is printed. */
export async function importArchive(path: string, name: string | undefined, line: string | undefined): Promise<number> {
  if (name === undefined) throw new Refusal('--manager NAME is needed: who looks after the imported log here.');
  const key = line === undefined ? null : parseVerifierKey(line);
  if (key?.ok === false) throw new Refusal(`--key is no verifier key line: ${key.why}.`);
  const service = await openService(settings());
  try {
    const { accountId } = await service.createAccount({ name });
    const source = createReadStream(path);
    const came = await service.context.get(Imports).take({ accountId, name }, source, { key: key?.value ?? null });
    const { token } = await service.issueToken({ accountId, label: 'import' });
    console.log(
      `operation  ${came.operationId}\nentries    ${came.size}\nroot       ${came.root}\ntoken      ${token}`,
    );
    for (const sha256 of came.documents.notTaken) console.error(`Document ${sha256} was not taken.`);
    console.error('The log is only read here until it is taken over. Keep the token: it is shown this once.');
  } finally {
    await service.close();
  }
  return 0;
}
