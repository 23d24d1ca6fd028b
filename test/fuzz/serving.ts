import { startService } from '@furrowmark/api';
import { example } from '../../libs/domain/src/records/corpus/read.ts';
import { recordTypes, typeEntry } from '@furrowmark/domain';

// The service to be tried, in a process of its own so that its memory can be watched: says on its first line where it
// answers, who may come in and what there is, then serves until stopped.
const [dataDir = '', databaseUrl = ''] = process.argv.slice(2);
const service = await startService({ dataDir, databaseUrl: databaseUrl || undefined, log: 'error' });

async function person(name: string): Promise<{ accountId: string; token: string }> {
  const { accountId } = await service.createAccount({ name });
  return { accountId, ...(await service.issueToken({ accountId, label: 'test' })) };
}
const description = { name: 'Quillfen Growers', timeZone: 'America/New_York' };
async function operationOf(accountId: string): Promise<string> {
  const made = await service.createOperation({ accountId, name: 'Ines' }, description);
  if (!('operationId' in made)) throw new Error(made.refused.detail);
  return made.operationId;
}

const manager = await person('Ines');
const operationId = await operationOf(manager.accountId);
const tokens: Record<string, string> = { manager: manager.token };
for (const role of ['recorder', 'reviewer', 'inspector'] as const) {
  const { accountId, token } = await person(role);
  await service.grant({ operationId, accountId, role });
  tokens[role] = token;
}
const stranger = await person('Stranger');
await operationOf(stranger.accountId);
// One record of each type, of one farm: there is something to list, to trace, to report.
const records = recordTypes.filter((type) => typeEntry(type)?.server !== true).map((type) => example(type));
const answer = await fetch(`${service.url}/api/v1/operations/${operationId}/records`, {
  method: 'POST',
  headers: { authorization: `Bearer ${manager.token}`, 'content-type': 'application/json' },
  body: JSON.stringify({ records }),
});
if (answer.status !== 200) throw new Error(await answer.text());
const uuids = new Set(JSON.stringify(records).match(/[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}/g) ?? []);
const ids = [...uuids];
const told = { url: service.url, operationId, tokens, stranger: stranger.token, ids, examples: records };
process.stdout.write(`${JSON.stringify(told)}\n`);
// What is really held, once everything that nobody refers to any more has been collected (`--expose-gc`).
const { gc } = globalThis;
process.on('SIGUSR2', () => {
  for (let i = 0; i < 3; i += 1) gc?.();
  process.stdout.write(`${JSON.stringify(process.memoryUsage())}\n`);
});
process.on('SIGTERM', () => void service.close().then(() => process.exit(0)));
