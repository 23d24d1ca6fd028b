import { startService } from '@furrowmark/api';

// A service in a process of its own, to be killed: says where it answers on the first line, then serves until stopped.
const [dataDir = '', databaseUrl = ''] = process.argv.slice(2);
const service = await startService({ dataDir, databaseUrl: databaseUrl || undefined, log: 'error' });
const { accountId } = await service.createAccount({ name: 'Ines' });
const { token } = await service.issueToken({ accountId, label: 'test' });
process.stdout.write(`${JSON.stringify({ url: service.url, token, accountId })}\n`);
process.on('SIGTERM', () => void service.close().then(() => process.exit(0)));
