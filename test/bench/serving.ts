import { startService } from '@furrowmark/api';
import { Appender } from '../../apps/api/src/append/index.ts';
import { Rebuild } from '../../apps/api/src/archive/index.ts';
import { Views } from '../../apps/api/src/views/index.ts';
import type { Asked } from './asked.ts';
import { eventStore } from './event-store.ts';
import type { Sent } from './records.ts';

// The service in a process of its own, as it runs in use; what it can do is asked over HTTP, but for what only a command
// does, and for what is measured without HTTP.
const [dataDir = ''] = process.argv.slice(2);
const service = await startService({ dataDir, log: 'silent' });
const { accountId } = await service.createAccount({ name: 'Ines' });
const { token } = await service.issueToken({ accountId, label: 'measuring' });
const serviceUrl = String(Reflect.get(service.database.dataSource.options, 'url'));
process.send?.({ url: service.url, token, ownerUrl: service.database.embedded?.ownerUrl, serviceUrl });

const views = service.context.get(Views);
/** Its tables were made by the owner. It opens no connection before it is used. */
const library = eventStore(serviceUrl);

async function carryOut(asked: Asked): Promise<void> {
  if (asked.do === 'rebuild') await service.context.get(Rebuild).run(asked.operationId, { mend: true });
  else if (asked.do === 'append') await append(asked.operationId, asked.requests);
  else if (asked.do === 'trace') await read(views.trace(asked.operationId, { kind: 'lot', id: asked.id }, 'forward'));
  else if (asked.do === 'page') await read(views.batch(asked.operationId, asked.id, {}));
  else await commit(asked.stream, asked.requests);
}

async function read(found: Promise<object | null>): Promise<void> {
  if ((await found) === null) throw new Error('nothing is known of it');
}

async function append(operationId: string, requests: readonly (readonly Sent[])[]): Promise<void> {
  const appender = service.context.get(Appender);
  const member = { accountId, name: 'Ines', operationId, role: 'manager' as const };
  for (const records of requests) {
    const answer = await appender.append(member, records);
    const other = answer?.results.find(({ status }) => status !== 'recorded');
    if (answer === null || other !== undefined) throw new Error(`not recorded: ${JSON.stringify(other)}`);
  }
}

async function commit(stream: string, requests: readonly (readonly Sent[])[]): Promise<void> {
  let version = -1;
  for (const records of requests) {
    const events = records.map((record) => ({ name: String(record['type']), data: record }));
    await library.commit(stream, events, { correlation: stream, causation: {} }, version);
    version += records.length;
  }
}

process.on('message', (asked: Asked) => {
  const start = performance.now();
  void carryOut(asked).then(
    () => process.send?.({ ms: performance.now() - start }),
    (error: unknown) => process.send?.({ failed: String(error) }),
  );
});
process.once('disconnect', () => {
  void Promise.all([library.dispose(), service.close()]).then(() => process.exit(0));
});
