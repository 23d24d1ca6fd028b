import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { mkdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { startService, type RunningService } from '@furrowmark/api';
import { unpackTar } from '@furrowmark/log';
import { run } from '@furrowmark/verify';
import { startEmbeddedDatabase } from '../apps/api/src/database/embedded.ts';
import { readyCluster } from './support/cluster.ts';
import { furrowmark } from './support/command-line.ts';
import { temporaryFolder } from './support/folder.ts';
import { note } from './support/service.ts';

/*
 * The restore drill: a service that runs is backed up, goes on recording, is lost, and comes back on another machine; with
 * its keys and without, with the newest checkpoint that somebody holds and without one.
 */
const machine = (name: string): string => temporaryFolder(`restore-${name}`);
/** One that has an empty database already, so that not each of them has to make it. */
const readyMachine = async (name: string): Promise<string> => {
  const home = machine(name);
  await readyCluster(join(home, 'data'));
  return home;
};
const lost = machine('lost');
const backup = join(lost, 'furrowmark.backup');
const plain = join(lost, 'furrowmark.tar');
const keys = join(lost, 'keys.backup');
const passphrase = join(lost, 'passphrase');
let service: RunningService;
let token = '';
let operationId = '';
/** The log as it was backed up, as it was lost, and an archive of the latter. */
let atBackup = '';
let newest = '';
let key = '';

async function ask(url: string, path: string, body?: unknown, type = 'application/json') {
  const answer = await fetch(`${url}/api/v1/operations${path}`, {
    headers: { authorization: `Bearer ${token}`, 'content-type': type },
    ...(body === undefined
      ? {}
      : { method: 'POST', body: body instanceof Uint8Array ? new Uint8Array(body) : JSON.stringify(body) }),
  });
  const bytes = Buffer.from(await answer.arrayBuffer());
  return { status: answer.status, text: bytes.toString('utf8'), bytes };
}
const file = (name: string, content: string | Buffer): string => {
  const path = join(lost, name);
  writeFileSync(path, content);
  return path;
};
const pdf = Buffer.from('%PDF-1.4\n1 0 obj<</Type/Catalog>>endobj\ntrailer<</Root 1 0 R>>\n%%EOF\n');

beforeAll(async () => {
  writeFileSync(passphrase, 'nettle harrow tuesday bucket\n');
  await readyCluster(join(lost, 'data'));
  service = await startService({ dataDir: join(lost, 'data'), log: 'silent' });
  const { accountId } = await service.createAccount({ name: 'Ines' });
  ({ token } = await service.issueToken({ accountId, label: 'test' }));
  const made: { operationId: string } = JSON.parse(
    (await ask(service.url, '', { name: 'Quillfen Growers', timeZone: 'America/New_York' })).text,
  );
  ({ operationId } = made);
  const at = `/${operationId}`;
  const person = {
    ...{ id: '0197a000-0000-7000-8000-0000000000a1', type: 'person.registered', version: 1 },
    occurredAt: '2026-06-03T06:10:00-05:00',
    data: { personId: '0197a000-0000-7000-8000-0000000000a2', personal: { name: 'Ottilie Brandwein' } },
  };
  await ask(service.url, `${at}/records`, { records: [note('one'), person, note('two')] });
  expect((await ask(service.url, `${at}/documents`, pdf, 'application/pdf')).status).toBe(201);
  atBackup = file('at-backup', (await ask(service.url, `${at}/log/checkpoint`)).text);
  key = (await ask(service.url, `${at}/log/key`)).text.trim();
}, 60_000);
afterAll(() => service.close());

describe('a backup', () => {
  it('is written while the service runs, read back, and checked by counts and roots', async () => {
    const made = await furrowmark(lost, 'backup', '--out', backup, '--passphrase-file', passphrase);
    expect([made.code, made.err]).toEqual([0, expect.stringContaining('keys are not in it')]);
    const [, size, rootOfLog] = readFileSync(atBackup, 'utf8').split('\n');
    expect(made.out).toContain(`${operationId}  ${size}  ${rootOfLog}`);
    expect((await furrowmark(lost, 'backup', '--out', plain)).code).toBe(0);
    expect((await furrowmark(lost, 'backup', '--keys', '--out', keys, '--passphrase-file', passphrase)).code).toBe(0);
    const nameInHex = Buffer.from('Ottilie').toString('hex'); // bytea as PostgreSQL writes it
    for (const each of [backup, keys]) {
      expect(statSync(each).mode & 0o777).toBe(0o600);
      expect(readFileSync(each).includes(nameInHex)).toBe(false);
    }
    // The seed is in neither backup of the database.
    const seed = readFileSync(join(lost, 'data', 'log-signing-key'), 'utf8').trim();
    expect(readFileSync(plain).includes(seed)).toBe(false);
    expect(readFileSync(plain).includes(nameInHex)).toBe(true);
  }, 240_000);

  it('is a tar that anybody can read, a row a line', async () => {
    const names: string[] = [];
    for await (const { name } of unpackTar([readFileSync(plain)])) names.push(name);
    expect(names[0]).toBe('backup.json');
    expect(names).toContain('tables/log_entry/00000000.ndjson');
    expect(names.filter((name) => name.startsWith('documents/'))).toHaveLength(1);
  });

  it('then the service goes on, somebody outside gets a checkpoint, and the machine is lost', async () => {
    await ask(service.url, `/${operationId}/records`, { records: [note('three'), note('four')] });
    newest = file('newest', (await ask(service.url, `/${operationId}/log/checkpoint`)).text);
    expect(readFileSync(newest, 'utf8')).toContain('\n6\n');
  });
});

describe('an archive as a file', () => {
  it('comes in with the command, whole and only read, under a manager whose token is printed', async () => {
    const archive = file('log.tar', (await ask(service.url, `/${operationId}/export`)).bytes);
    const home = await readyMachine('import');
    const { code, out, err } = await furrowmark(home, 'import', archive, '--manager', 'Ines', '--key', key);
    expect([code, err]).toEqual([0, expect.stringContaining('only read here until it is taken over')]);
    expect(out).toContain(`operation  ${operationId}\nentries    6\n`);
    const twice = await furrowmark(home, 'import', archive, '--manager', 'Ines');
    expect([twice.code, twice.err]).toEqual([65, expect.stringContaining('is here already')]);
    const checked = await furrowmark(home, 'verify', '--operation', operationId, '--key', key, '--against', newest);
    expect([checked.code, checked.out]).toEqual([0, expect.stringContaining('GENUINE UP TO SIZE 6')]);
  }, 240_000);
});

describe('a restore', () => {
  it('does not begin before it has been asked what the newest checkpoint is that anybody holds', async () => {
    const { code, err } = await furrowmark(await readyMachine('asks'), 'restore', plain);
    expect([code, err]).toEqual([65, expect.stringContaining('newest checkpoint')]);
  }, 240_000);

  it('with the keys and nothing lost goes on under the same key: same root, same records, same way in', async () => {
    const home = machine('whole');
    const restored = await furrowmark(
      ...([home, 'restore', backup, '--against', atBackup, '--passphrase-file', passphrase] as const),
    );
    // The keys were not put back: that is found, and said.
    expect([restored.code, restored.out]).toEqual([0, expect.stringContaining('the signing key was lost')]);

    const again = await readyMachine('whole-with-keys');
    const { code, out } = await furrowmark(
      ...([again, 'restore', plain, '--keys', keys, '--against', atBackup, '--passphrase-file', passphrase] as const),
    );
    expect([code, out]).toEqual([0, `${operationId}: 4 entries, nothing known to be lost\n`]);
    const back = await startService({ dataDir: join(again, 'data'), log: 'silent' });
    try {
      expect((await ask(back.url, `/${operationId}/log/checkpoint`)).text).toBe(readFileSync(atBackup, 'utf8'));
      expect((await ask(back.url, `/${operationId}/log/key`)).text.trim()).toBe(key);
      expect((await ask(back.url, `/${operationId}/records`)).text).toContain('Ottilie Brandwein');
      const { createHash } = await import('node:crypto');
      const sha256 = createHash('sha256').update(pdf).digest('hex');
      expect((await ask(back.url, `/${operationId}/documents/${sha256}`)).bytes).toEqual(pdf);
      const appended = await ask(back.url, `/${operationId}/records`, { records: [note('after')] });
      expect(JSON.parse(appended.text).results[0]).toMatchObject({ status: 'recorded', seq: 4 });
    } finally {
      await back.close();
    }
  }, 240_000);

  it('from a backup that is shorter than what a witness has seen says so in the log, under a new key', async () => {
    const home = await readyMachine('shorter');
    const { code, out } = await furrowmark(
      ...([home, 'restore', backup, '--keys', keys, '--against', newest, '--passphrase-file', passphrase] as const),
    );
    expect([code, out]).toEqual([0, expect.stringContaining('a checkpoint of 6 is known')]);
    const back = await startService({ dataDir: join(home, 'data'), log: 'silent' });
    try {
      const [, , rootOfNewest] = readFileSync(newest, 'utf8').split('\n');
      const { records } = JSON.parse((await ask(back.url, `/${operationId}/records?type=log.restored`)).text);
      const now = (await ask(back.url, `/${operationId}/log/key`)).text.trim();
      expect(now).not.toBe(key);
      expect(records).toHaveLength(1);
      expect(records[0]).toMatchObject({
        seq: 4,
        data: { size: 4, knownSize: 6, knownRoot: rootOfNewest, previousKey: key, key: now },
      });
      const archive = file('restored.tar', (await ask(back.url, `/${operationId}/export`)).bytes);
      const read = await run([archive, '--key', now], Date.now());
      expect([read.code, read.output]).toEqual([3, expect.stringContaining('a checkpoint of 6 was known')]);
      // What was lost is not explained away: whoever kept the newer checkpoint sees it.
      expect((await run([archive, '--key', key, '--key', now, '--against', newest], Date.now())).code).toBe(1);
      const older = await run([archive, '--key', key, '--key', now, '--against', atBackup], Date.now());
      expect([older.code, older.output]).toEqual([0, expect.stringContaining('GENUINE UP TO SIZE 4')]);
    } finally {
      await back.close();
    }
  }, 240_000);

  it('refuses another history, a wrong passphrase, a changed file, a file cut short, and a database that is not empty', async () => {
    const home = await readyMachine('refused');
    const running = await startEmbeddedDatabase(join(home, 'data'));
    const forked = file('forked', readFileSync(atBackup, 'utf8').replace(/\n4\n.{6}/, '\n4\nAAAAAA'));
    const other = await furrowmark(home, 'restore', plain, '--against', forked);
    expect([other.code, other.err]).toEqual([65, expect.stringContaining('another history')]);

    mkdirSync(join(home, 'x'), { recursive: true });
    const wrong = join(home, 'x', 'wrong');
    writeFileSync(wrong, 'another passphrase\n');
    const closed = await furrowmark(home, 'restore', backup, '--no-checkpoint-known', '--passphrase-file', wrong);
    expect([closed.code, closed.err]).toEqual([65, expect.stringContaining('the passphrase does not open the file')]);

    const bytes = readFileSync(backup);
    const changed = file('changed', Buffer.from(bytes.map((byte, i) => (i === bytes.length - 40 ? byte ^ 1 : byte))));
    const short = file('short', bytes.subarray(0, bytes.length - 1000));
    for (const each of [changed, short]) {
      const refused = await furrowmark(home, 'restore', each, '--no-checkpoint-known', '--passphrase-file', passphrase);
      expect(refused.code).toBe(65);
      expect(refused.err).toMatch(/changed or cut short|does not open/);
    }

    const edited = file('edited.tar', readFileSync(plain).toString('latin1').replace('"seq": 2,', '"seq": 9,'));
    const missing = await furrowmark(home, 'restore', edited, '--no-checkpoint-known');
    expect([missing.code, missing.err]).toEqual([65, expect.stringContaining('is missing')]);

    expect((await furrowmark(home, 'restore', plain, '--no-checkpoint-known')).code).toBe(0);
    const twice = await furrowmark(home, 'restore', plain, '--no-checkpoint-known');
    expect([twice.code, twice.err]).toEqual([65, expect.stringContaining('empty database')]);
    await running.stop();
  }, 400_000);
});
