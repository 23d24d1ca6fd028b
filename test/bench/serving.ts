import { userInfo } from 'node:os';
import { PostgresStore } from '@rotorsoft/act-pg';
import { startService } from '@furrowmark/api';
import { Appender } from '../../apps/api/src/append/index.ts';
import { Rebuild } from '../../apps/api/src/archive/index.ts';
import type { Asked } from './asked.ts';

// The service in a process of its own, as it runs in use; what it can do is asked over HTTP, but for what only a command
// does, and for what is measured without HTTP.
const [dataDir = ''] = process.argv.slice(2);
const service = await startService({ dataDir, log: 'silent' });
const { accountId } = await service.createAccount({ name: 'Ines' });
const { token } = await service.issueToken({ accountId, label: 'measuring' });
const serviceUrl = String(Reflect.get(service.database.dataSource.options, 'url'));
process.send?.({ url: service.url, token, ownerUrl: service.database.embedded?.ownerUrl, serviceUrl });

let library: PostgresStore | undefined;
/** A general event store under the service's own login; its tables were made by the owner. */
function eventStore(): PostgresStore {
  const { hostname, port, username, password, pathname } = new URL(serviceUrl);
  library ??= new PostgresStore({
    host: hostname || 'localhost',
    port: Number(port),
    user: decodeURIComponent(username) || userInfo().username,
    password: decodeURIComponent(password),
    database: pathname.slice(1),
    schema: 'library',
    table: 'event',
  });
  return library;
}

const does: { readonly [K in Asked['do']]: (asked: Extract<Asked, { do: K }>) => Promise<unknown> } = {
  rebuild: ({ operationId }) => service.context.get(Rebuild).run(operationId, { mend: true }),
  async append({ operationId, requests }) {
    const appender = service.context.get(Appender);
    const member = { accountId, name: 'Ines', operationId, role: 'manager' as const };
    for (const records of requests) {
      const answer = await appender.append(member, records);
      const other = answer?.results.find(({ status }) => status !== 'recorded');
      if (answer === null || other !== undefined) throw new Error(`not recorded: ${JSON.stringify(other)}`);
    }
  },
  async commit({ stream, requests }) {
    let version = -1;
    for (const records of requests) {
      const events = records.map((record) => ({ name: String(record['type']), data: record }));
      await eventStore().commit(stream, events, { correlation: stream, causation: {} }, version);
      version += records.length;
    }
  },
};
const run = <K extends Asked['do']>(asked: Extract<Asked, { do: K }>, kind: K): Promise<unknown> => does[kind](asked);

process.on('message', (asked: Asked) => {
  const start = performance.now();
  const done =
    asked.do === 'rebuild'
      ? run(asked, 'rebuild')
      : asked.do === 'append'
        ? run(asked, 'append')
        : run(asked, 'commit');
  void done.then(
    () => process.send?.({ ms: performance.now() - start }),
    (error: unknown) => process.send?.({ failed: String(error) }),
  );
});
process.once(
  'disconnect',
  () => void (library?.dispose() ?? Promise.resolve()).then(() => service.close()).then(() => process.exit(0)),
);
