import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { setTimeout as pause } from 'node:timers/promises';
import { startService, type RunningService } from '@furrowmark/api';
import { Schedule } from '../apps/api/src/archive/index.ts';
import { startEmbeddedDatabase, type EmbeddedDatabase } from '../apps/api/src/database/embedded.ts';
import { Chance } from './faults/chance.ts';
import { deliver, freshlyTold, phone } from './faults/phones.ts';
import { logFaults, rebuildFaults } from './faults/whole.ts';
import { startBalancer, type Balancer } from './support/balancer.ts';
import { startChild, type ChildService } from './support/child.ts';
import { readyCluster } from './support/cluster.ts';
import { temporaryFolder } from './support/folder.ts';
import { mailServer } from './support/mail-server.ts';

// As docker-compose.yml has it: one database, several services that share the folder of keys and documents, a proxy.
const place = temporaryFolder('replicas');
const dataDir = temporaryFolder('replicas-data');
let database: EmbeddedDatabase;
let services: [ChildService, ChildService];
let proxy: Balancer;
let token = '';

const ask = async (method: string, path: string, headers: Record<string, string> = {}, body?: object) => {
  const answer = await fetch(proxy.url + path, {
    method,
    headers: { 'content-type': 'application/json', ...headers },
    ...(body === undefined ? {} : { body: JSON.stringify(body) }),
  });
  return { status: answer.status, cookies: answer.headers.getSetCookie(), text: await answer.text() };
};
const bearer = () => ({ authorization: `Bearer ${token}` });
const operation = async (): Promise<string> => {
  const made = await ask('POST', '/api/v1/operations', bearer(), { name: 'Quillfen Growers', timeZone: 'UTC' });
  return JSON.parse(made.text).operationId;
};

beforeAll(async () => {
  await readyCluster(place);
  database = await startEmbeddedDatabase(place);
  // One makes the schema, the login and the keys; both at once must end with one of each.
  services = await Promise.all([startChild(dataDir, database.ownerUrl), startChild(dataDir, database.ownerUrl)]);
  proxy = await startBalancer(services[0].url, services[1].url);
  ({ token } = services[0]);
}, 90_000);
afterAll(async () => {
  await proxy.close();
  await Promise.all(services.map((each) => each.end('SIGTERM')));
  await database.stop();
});

describe('two services behind a proxy', () => {
  it('a session opened at one is good at the other, and ended at one is ended at both', async () => {
    const [login, password] = ['ines', 'nettle harrow tuesday bucket'];
    expect((await ask('PUT', '/api/v1/account/password', bearer(), { login, password })).status).toBe(204);
    const opened = await ask('POST', '/api/v1/session', {}, { login, password });
    expect(opened.status).toBe(201);
    const cookie = opened.cookies.map((each) => each.split(';')[0]).join('; ');
    const csrf: string = JSON.parse(opened.text).csrfToken;
    const before = new Map(proxy.answered);
    for (let i = 0; i < 4; i += 1) expect((await ask('GET', '/api/v1/operations', { cookie })).status).toBe(200);
    // Both were asked, in turn.
    expect(services.map(({ url }) => (proxy.answered.get(url) ?? 0) - (before.get(url) ?? 0))).toEqual([2, 2]);
    expect((await ask('DELETE', '/api/v1/session', { cookie, 'x-csrf-token': csrf })).status).toBe(204);
    for (let i = 0; i < 2; i += 1) expect((await ask('GET', '/api/v1/operations', { cookie })).status).toBe(401);
  }, 60_000);

  it('wrong passwords are counted together: who has used up the tries at both has none left at either', async () => {
    let last = 0;
    for (let i = 0; i < 60 && last !== 429; i += 1) {
      last = (await ask('POST', '/api/v1/session', {}, { login: 'nobody', password: `guess ${i}` })).status;
    }
    expect(last).toBe(429);
    for (const { url } of services) {
      const answer = await fetch(`${url}/api/v1/session`, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ login: 'nobody', password: 'one more' }),
      });
      expect(answer.status).toBe(429);
      await answer.text();
    }
  }, 60_000);

  it('one is killed while phones deliver, and comes back: everything acknowledged is in the log once', async () => {
    const address = { url: proxy.url, token, operationId: await operation() };
    const told = freshlyTold();
    const until = { stopped: false };
    const phones = [0, 1, 2, 3].map((i) => phone(address, new Chance(100 + i), i, told, until));
    try {
      for (const which of [0, 1] as const) {
        await pause(1_000);
        await services[which].end('SIGKILL');
        // The other goes on alone.
        const enough = told.acknowledged.size + 40;
        for (let i = 0; i < 300 && told.acknowledged.size < enough; i += 1) await pause(50);
        expect(told.acknowledged.size).toBeGreaterThanOrEqual(enough);
        services[which] = await startChild(dataDir, database.ownerUrl);
        proxy.services[which] = services[which].url;
      }
    } finally {
      until.stopped = true;
      await Promise.all(phones);
    }
    const rest = [...told.sent.values()].filter(({ id }) => !told.acknowledged.has(id));
    for (let start = 0; start < rest.length; start += 500) {
      expect(await deliver(address, rest.slice(start, start + 500), told)).toBe(true);
    }
    expect(told.wrong).toEqual([]);
    expect(await logFaults(address, told)).toEqual([]);
    const rebuilt = await rebuildFaults(dataDir, database.ownerUrl, address.operationId);
    expect(rebuilt.wrong).toEqual([]);
    expect(rebuilt.batches).toBeGreaterThan(0);
  }, 120_000);
});

describe('what is done by the clock', () => {
  it('is done by one of the services that look at the same moment: each letter goes out once', async () => {
    const post = await mailServer();
    const mail = { url: post.url, from: 'records@quillfen.example' };
    const open = (): Promise<RunningService> =>
      startService({ dataDir, databaseUrl: database.ownerUrl, mail, log: 'error' });
    const both = [await open(), await open()];
    try {
      const addresses = Array.from({ length: 12 }, (_, i) => `office-${i}@certifier.example`);
      for (const address of addresses) {
        const at = `/api/v1/operations/${await operation()}/log/witnesses`;
        expect((await ask('POST', at, bearer(), { address, everyDays: 7 })).status).toBe(201);
      }
      await Promise.all(both.map(({ context }) => context.get(Schedule).look()));
      await Promise.all(both.map(({ context }) => context.get(Schedule).look()));
      expect(post.letters.flatMap(({ to }) => to).sort()).toEqual(addresses.sort());
    } finally {
      for (const service of both) await service.close();
      await post.close();
    }
  }, 90_000);
});
