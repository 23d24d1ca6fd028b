import { startService } from '@furrowmark/api';
import { Rebuild } from '../../apps/api/src/archive/index.ts';

// The service in a process of its own, as it runs in use; what it can do is asked over HTTP, but for the two things
// that only a command does.
const [dataDir = ''] = process.argv.slice(2);
const service = await startService({ dataDir, log: 'silent' });
const { accountId } = await service.createAccount({ name: 'Ines' });
const { token } = await service.issueToken({ accountId, label: 'measuring' });
process.send?.({ url: service.url, token, ownerUrl: service.database.embedded?.ownerUrl });

process.on('message', (operationId: string) => {
  const start = performance.now();
  void service.context
    .get(Rebuild)
    .run(operationId, { mend: true })
    .then(() => process.send?.({ rebuildMs: performance.now() - start }));
});
process.once('disconnect', () => void service.close().then(() => process.exit(0)));
