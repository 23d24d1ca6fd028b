import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { startService, type RunningService } from '@furrowmark/api';
import { startEmbeddedDatabase, type EmbeddedDatabase } from '../apps/api/src/database/embedded.ts';
import { startProxy, type Proxy } from './faults/proxy.ts';
import { readyCluster } from './support/cluster.ts';
import { temporaryFolder } from './support/folder.ts';
import { note } from './support/service.ts';

// The line to the database is cut after the first piece that passes, after the second, the third … until a request gets
// through uncut: whatever the program is in the middle of, it says "send it again", never that it is broken.
const place = temporaryFolder('cut-database');
let database: EmbeddedDatabase;
let proxy: Proxy;
let service: RunningService;
let token = '';
let operationId = '';

beforeAll(async () => {
  await readyCluster(place);
  database = await startEmbeddedDatabase(place);
  proxy = await startProxy(Number(new URL(database.ownerUrl).port));
  const url = new URL(database.ownerUrl);
  url.port = String(proxy.port);
  service = await startService({ dataDir: temporaryFolder('cut-data'), databaseUrl: url.toString(), log: 'silent' });
  const { accountId } = await service.createAccount({ name: 'Ines' });
  ({ token } = await service.issueToken({ accountId, label: 'test' }));
  const made = await service.createOperation(
    { accountId, name: 'Ines' },
    { name: 'Quillfen Growers', timeZone: 'UTC' },
  );
  if (!('operationId' in made)) throw new Error(made.refused.detail);
  ({ operationId } = made);
}, 60_000);
afterAll(async () => {
  proxy.cutAfter(Infinity);
  await service.close();
  await proxy.close();
  await database.stop();
});

const requests: [name: string, method: string, path: () => string, body: () => object | Buffer | undefined][] = [
  ['an append of one record', 'POST', () => '/records', () => ({ records: [note('one')] })],
  ['an append of sixty', 'POST', () => '/records', () => ({ records: Array.from({ length: 60 }, () => note('many')) })],
  ['a check', 'POST', () => '/check', () => ({ records: [note('would be')] })],
  ['a batch', 'GET', () => '/batches/01976f00-0000-7000-8000-0000000000b1', () => undefined],
  ['the batches', 'GET', () => '/batches', () => undefined],
  ['the findings', 'GET', () => '/findings', () => undefined],
  ['the records', 'GET', () => '/records?about=01976f00-0000-7000-8000-0000000000b1', () => undefined],
  ['the checkpoint', 'GET', () => '/log/checkpoint', () => undefined],
  ['a report', 'GET', () => '/reports/findings.json', () => undefined],
  ['a new member', 'POST', () => '/members', () => ({ name: 'Ruth', role: 'recorder' })],
  ['a phone', 'POST', () => '/phones', () => ({ label: 'phone at the tank' })],
  ['a link', 'POST', () => '/access-links', () => ({})],
  ['a document', 'POST', () => '/documents', () => Buffer.from(`%PDF-1.4 ${randomUUID()}`)],
  ['the operations', 'GET', () => '~/operations', () => undefined],
];

describe('the line to the database cut at any moment of', () => {
  it.each(requests)(
    '%s: answered as ever or 503, send it again; and the next one is answered',
    async (_name, method, path, body) => {
      const ask = async (): Promise<{ status: number; again: number; text: string }> => {
        const sent = body();
        const type = Buffer.isBuffer(sent) ? 'application/pdf' : 'application/json';
        const answer = await fetch(
          service.url + path().replace(/^\//, `/api/v1/operations/${operationId}/`).replace('~', '/api/v1'),
          {
            method,
            headers: { authorization: `Bearer ${token}`, ...(sent === undefined ? {} : { 'content-type': type }) },
            ...(sent === undefined
              ? {}
              : { body: Buffer.isBuffer(sent) ? new Uint8Array(sent) : JSON.stringify(sent) }),
          },
        );
        return { status: answer.status, again: Number(answer.headers.get('retry-after')), text: await answer.text() };
      };
      proxy.cutAfter(Infinity);
      const good = (await ask()).status;
      expect(good).toBeLessThan(300);
      const wrong: string[] = [];
      let pieces = 1;
      for (; pieces < 200; pieces += 1) {
        proxy.cutAfter(pieces);
        const { status, again, text } = await ask();
        const wasCut = proxy.hasCut;
        if (status !== good && !(status === 503 && again > 0)) wrong.push(`cut at ${pieces}: ${status} ${text}`);
        if (!wasCut) break;
      }
      proxy.cutAfter(Infinity);
      expect(wrong).toEqual([]);
      expect(pieces).toBeGreaterThan(2);
      expect(pieces).toBeLessThan(200);
      expect((await ask()).status).toBe(good);
    },
    60_000,
  );
});
