import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { randomUUID } from 'node:crypto';
import { existsSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { AddressInfo } from 'node:net';
import { startService, type RunningService } from '@furrowmark/api';
import {
  canonicalText,
  emptyFrontier,
  extend,
  leafHash,
  packTar,
  parseVerifierKey,
  rootOf,
  signCheckpoint,
  signerFromSeed,
  unpackTar,
  verifierKeyText,
} from '@furrowmark/log';
import { run } from '@furrowmark/verify';
import { SMTPServer } from 'smtp-server';
import { Schedule } from '../apps/api/src/archive/index.ts';
import { temporaryFolder } from './support/folder.ts';
import { note, TestService, type Answer, type TestOperation } from './support/service.ts';

/*
 * A log leaves one service as an archive and is carried on by another; its key is replaced; its checkpoints go out by
 * mail. What is written is held against the separate verifier, which shares nothing with the service but the log library.
 */
const folder = temporaryFolder('archive');
let service: TestService;
let elsewhere: RunningService;
let op: TestOperation;

const letters: string[] = [];
const post = new SMTPServer({
  disabledCommands: ['AUTH', 'STARTTLS'],
  onData: (stream, _session, done) => {
    let text = '';
    stream.on('data', (chunk) => (text += String(chunk)));
    stream.on('end', () => {
      letters.push(text);
      done();
    });
  },
});

beforeAll(async () => {
  service = await TestService.start();
  await new Promise<void>((listening) => post.listen(0, '127.0.0.1', listening));
  const address: AddressInfo | string | null = post.server.address();
  const port = typeof address === 'object' ? address?.port : 0;
  elsewhere = await startService({
    dataDir: join(folder, 'data'),
    log: 'silent',
    mail: { url: `smtp://127.0.0.1:${port}`, from: 'records@quillfen.example' },
  });
}, 90_000);
afterAll(async () => {
  await service.close();
  await elsewhere.close();
  await new Promise<void>((closed) => post.close(closed));
});

const base = (operationId = op.operationId): string => `/api/v1/operations/${operationId}`;
const person = (): Record<string, unknown> => ({
  ...{ id: randomUUID(), type: 'person.registered', version: 1, occurredAt: '2026-06-03T06:10:00-05:00' },
  data: { personId: randomUUID(), personal: { name: 'Ottilie Brandwein' } },
});
const pdf = Buffer.from('%PDF-1.4\n1 0 obj<</Type/Catalog>>endobj\ntrailer<</Root 1 0 R>>\n%%EOF\n');

/** A log with notes, a person's name, a document. */
async function grown(): Promise<void> {
  op = await service.operation();
  const manager = op.tokens.manager;
  const stored = await service.call('POST', `${base()}/documents`, manager, pdf, { 'content-type': 'application/pdf' });
  expect(stored.status).toBe(201);
  const attached = {
    ...{ id: randomUUID(), type: 'document.attached', version: 1, occurredAt: '2026-06-03T06:10:00-05:00' },
    data: {
      ...{ documentId: randomUUID(), title: 'water test', mediaType: 'application/pdf' },
      ...{ byteLength: pdf.length, sha256: stored.json.sha256, about: [] },
    },
  };
  const records = [note('first'), person(), attached, ...Array.from({ length: 20 }, (_, i) => note(`note ${i}`))];
  const appended = await service.append(op.operationId, manager, records);
  expect(appended.json.results.map((each: { status: string }) => each.status)).toEqual(records.map(() => 'recorded'));
}

/** The archive as a file, and what is in it. */
async function taken(token = op.tokens.manager, url = service.url, operationId = op.operationId) {
  const answer = await fetch(`${url}${base(operationId)}/export`, { headers: { authorization: `Bearer ${token}` } });
  expect([answer.status, answer.headers.get('content-type')]).toEqual([200, 'application/x-tar']);
  const bytes = Buffer.from(await answer.arrayBuffer());
  const path = join(folder, `${randomUUID()}.tar`);
  writeFileSync(path, bytes);
  const files = new Map<string, Buffer>();
  for await (const { name, body } of unpackTar([bytes])) {
    const chunks: Uint8Array[] = [];
    for await (const chunk of body) chunks.push(chunk);
    files.set(name, Buffer.concat(chunks));
  }
  return { path, bytes, files };
}
const kept = (name: string, text: string): string => {
  const path = join(folder, `${randomUUID()}.${name}`);
  writeFileSync(path, text);
  return path;
};
const checked = (...args: string[]) => run(args, Date.now());
const keyLine = async (): Promise<string> => (await service.get(`${base()}/log/key`, op.tokens.manager)).text.trim();

/** To the other service. */
async function there(method: string, path: string, token: string, body?: unknown, type = 'application/json') {
  const answer = await fetch(elsewhere.url + path, {
    method,
    headers: { authorization: `Bearer ${token}`, ...(body === undefined ? {} : { 'content-type': type }) },
    ...(body === undefined ? {} : { body: body instanceof Uint8Array ? new Uint8Array(body) : JSON.stringify(body) }),
  });
  const text = await answer.text();
  const isJson = answer.headers.get('content-type')?.includes('x-ndjson') === false && text.startsWith('{');
  const json: Answer['json'] = isJson ? JSON.parse(text) : undefined;
  return { status: answer.status, text, json };
}
async function somebody(name = 'Ines'): Promise<string> {
  const { accountId } = await elsewhere.createAccount({ name });
  return (await elsewhere.issueToken({ accountId, label: 'test' })).token;
}

describe('an archive', () => {
  beforeAll(grown);

  it('is a tar that the separate verifier finds whole: every seal opened, every document there', async () => {
    const { path, files } = await taken();
    expect([...files.keys()].slice(0, 5)).toEqual([
      'manifest.json',
      'checkpoint',
      'key',
      'leaf-hashes',
      'entries.ndjson',
    ]);
    const { code, output } = await checked(path, '--key', await keyLine());
    expect(code).toBe(3);
    expect(output).toContain('Sealed members: 1 opened and match, 0 withheld, 0 altered');
    expect(output).toContain('Documents: 1 match, 0 missing, 0 altered');
  });

  it('leaves out a document that was sent but is not in the log yet', async () => {
    const early = Buffer.concat([pdf, Buffer.from('% not recorded yet')]);
    const headers = { 'content-type': 'application/pdf' };
    expect((await service.call('POST', `${base()}/documents`, op.tokens.manager, early, headers)).status).toBe(201);
    const { code, output } = await checked((await taken()).path);
    expect([code, output]).toEqual([3, expect.stringContaining('Documents: 1 match, 0 missing, 0 altered')]);
  });

  it('goes without names to a recorder, and is as provable; a reading link gets none', async () => {
    const { path, files } = await taken(op.tokens.recorder);
    expect(files.has('openings.ndjson')).toBe(false);
    const { code, output } = await checked(path);
    expect([code, output]).toEqual([3, expect.stringContaining('0 opened and match, 1 withheld')]);
    const link = await service.call('POST', `${base()}/access-links`, op.tokens.manager, {});
    expect((await service.get(`${base()}/export`, link.json.token)).status).toBe(403);
  });

  it('is genuine with a checkpoint kept before more was recorded', async () => {
    const before = await service.get(`${base()}/log/checkpoint`, op.tokens.inspector);
    await service.append(op.operationId, op.tokens.recorder, [note('later')]);
    const { path } = await taken();
    const { code, output } = await checked(
      path,
      '--key',
      await keyLine(),
      '--against',
      kept('checkpoint', before.text),
    );
    expect([code, output]).toEqual([0, expect.stringContaining('GENUINE UP TO SIZE')]);
  });

  it('one record comes with a proof file that needs nothing but the key; of an unknown record there is none', async () => {
    const one = note('proven');
    await service.append(op.operationId, op.tokens.recorder, [one]);
    const proof = await service.get(`${base()}/records/${one.id}/proof`, op.tokens.inspector);
    expect(proof.headers.get('content-disposition')).toMatch(/entry-\d+\.tlog-proof/);
    const path = kept('tlog-proof', proof.text);
    expect((await checked(path, '--key', await keyLine())).code).toBe(0);
    expect((await checked((await taken()).path, '--against', path)).code).toBe(0);
    const other = proof.text.replace(/^index (\d+)$/m, (_, index) => `index ${Number(index) - 1}`);
    expect((await checked(kept('tlog-proof', other), '--key', await keyLine())).code).toBe(1);
    expect((await service.get(`${base()}/records/${randomUUID()}/proof`, op.tokens.inspector)).status).toBe(404);
  });
});

describe('another key', () => {
  beforeAll(grown);
  let first = '';
  let second = '';
  let third = '';

  it('is replaced by a record; the old one signs over it, so whoever trusts the old one trusts the new one', async () => {
    first = await keyLine();
    const changed = await service.call('POST', `${base()}/log/key`, op.tokens.manager, { reason: 'yearly change' });
    expect(changed.status).toBe(200);
    expect(changed.json.previousKey).toBe(first);
    second = await keyLine();
    expect(second).toBe(changed.json.key);
    expect(second).not.toBe(first);
    const { json } = await service.get(`${base()}/records?type=key.replaced`, op.tokens.manager);
    expect(json.records.map((each: { data: unknown }) => each.data)).toEqual([
      { previousKey: first, key: second, reason: 'yearly change' },
    ]);
    const { path } = await taken();
    const { code, output } = await checked(path, '--key', first);
    expect([code, output]).toEqual([3, expect.stringContaining(`hands the log over to the key ${second}`)]);
  });

  it('and again: each of the three keys, and none at all, reads the archive', async () => {
    await service.append(op.operationId, op.tokens.recorder, [note('between')]);
    await service.call('POST', `${base()}/log/key`, op.tokens.manager, { reason: 'a laptop was lost' });
    third = await keyLine();
    const { path } = await taken();
    for (const trusted of [[], ['--key', first], ['--key', second], ['--key', third]]) {
      const { code, output } = await checked(path, ...trusted);
      expect([trusted, code, output]).toEqual([trusted, 3, expect.stringContaining('SELF-CONSISTENT')]);
    }
    // A key from nowhere is not trusted by having the right name.
    const stranger = await service.operation();
    const foreign = (await service.get(`${base(stranger.operationId)}/log/key`, stranger.tokens.manager)).text.trim();
    expect((await checked(path, '--key', foreign)).code).toBe(1);
  });

  it('seeds lie in files that only this user may read, and that of a replaced key is gone', () => {
    const dataDir = dataDirOf(service);
    const folderOfKeys = join(dataDir, 'log-keys', op.operationId);
    const parsed = parseVerifierKey(third);
    expect(readdirSync(folderOfKeys)).toEqual([parsed.ok ? parsed.value.keyId : '']);
    for (const file of readdirSync(folderOfKeys)) expect(statSync(join(folderOfKeys, file)).mode & 0o777).toBe(0o600);
    expect(statSync(join(dataDir, 'log-signing-key')).mode & 0o777).toBe(0o600);
  });

  it('only a manager replaces it, with a reason', async () => {
    const asked = (token: string, body: unknown) => service.call('POST', `${base()}/log/key`, token, body);
    expect((await asked(op.tokens.reviewer, { reason: 'x' })).status).toBe(403);
    expect((await asked(op.tokens.manager, { reason: ' ' })).status).toBe(422);
    expect(await keyLine()).toBe(third);
  });
});

describe('an archive taken elsewhere', () => {
  beforeAll(grown);
  let token = '';

  it('has the same root, the same records and documents, and is only read', async () => {
    const { bytes } = await taken();
    token = await somebody();
    const before = await service.get(`${base()}/log/checkpoint`, op.tokens.manager);
    const came = await there('POST', `${base()}/import`, token, bytes, 'application/x-tar');
    expect([came.status, came.json]).toEqual([
      201,
      expect.objectContaining({ operationId: op.operationId, readOnly: true, documents: { taken: 1, notTaken: [] } }),
    ]);
    expect(before.text).toContain(`\n${came.json.size}\n${came.json.root}\n`);
    expect((await there('GET', `${base()}/log/checkpoint`, token)).text).toBe(before.text);
    expect((await there('GET', `${base()}/log/key`, token)).text.trim()).toBe(await keyLine());
    const [here, now] = [
      await service.get(`${base()}/records?limit=1000`, op.tokens.manager),
      await there('GET', `${base()}/records?limit=1000`, token),
    ];
    expect(now.json.records).toEqual(here.json.records);
    const refusedNote = await there('POST', `${base()}/records`, token, { records: [note('no')] });
    expect([refusedNote.status, refusedNote.json.type]).toEqual([409, '/problems/read-only']);
    const { path } = await taken(token, elsewhere.url);
    expect((await checked(path, '--key', await keyLine())).code).toBe(3);
  });

  it('answers 409 the second time, to whichever address it is sent', async () => {
    const { bytes } = await taken();
    for (const address of [`${base()}/import`, '/api/v1/operations/import'])
      expect((await there('POST', address, token, bytes, 'application/x-tar')).status).toBe(409);
    const stranger = await somebody('Tobin');
    expect((await there('POST', `${base()}/import`, stranger, bytes, 'application/x-tar')).status).toBe(404);
  });

  it('is carried on under a new key once it is taken over, which is recorded; the old history stays provable', async () => {
    const old = kept('checkpoint', (await service.get(`${base()}/log/checkpoint`, op.tokens.manager)).text);
    const over = await there('POST', `${base()}/take-over`, token, { reason: 'moved to a server of our own' });
    expect([over.status, over.json.previousKey]).toEqual([200, await keyLine()]);
    expect((await there('POST', `${base()}/take-over`, token, {})).status).toBe(409);
    const appended = await there('POST', `${base()}/records`, token, { records: [note('here now')] });
    expect(appended.json.results[0].status).toBe('recorded');
    const { path } = await taken(token, elsewhere.url);
    const { code, output } = await checked(path, '--key', await keyLine(), '--key', over.json.key, '--against', old);
    expect([code, output]).toEqual([0, expect.stringContaining('GENUINE UP TO SIZE')]);
  });

  it.each([
    [
      'an entry edited',
      (files: Map<string, Buffer>) => swap(files, 'entries.ndjson', '"first"', '"fiRst"'),
      /entry 1\b/,
    ],
    [
      'a name exchanged',
      (files: Map<string, Buffer>) => swap(files, 'openings.ndjson', 'Brandwein', 'Brantwein'),
      /not what was sealed/,
    ],
    ['the checkpoint taken away', (files: Map<string, Buffer>) => files.delete('checkpoint'), /no checkpoint/],
    [
      'only a part',
      (files: Map<string, Buffer>) => swap(files, 'manifest.json', '"partial":false', '"partial":true'),
      /a part of a log/,
    ],
  ])('refuses %s and keeps nothing of it', async (_, tamper, says) => {
    await grown();
    const { files } = await taken();
    tamper(files);
    const packed: Uint8Array[] = [];
    const list = [...files].map(([name, body]) => ({ name, size: body.length, body }));
    for await (const chunk of packTar(list)) packed.push(chunk);
    const answer = await there('POST', '/api/v1/operations/import', token, Buffer.concat(packed), 'application/x-tar');
    expect(answer.status).toBe(422);
    expect(answer.text).toMatch(says);
    expect((await there('GET', `${base()}/records`, token)).status).toBe(404);
  });

  it('takes a document whose entry calls it by another media type than its content has', async () => {
    op = await service.operation();
    const manager = op.tokens.manager;
    const csv = Buffer.from('sampled,result\n2026-06-03,absent\n');
    for (const [bytes, sent, told] of [
      [pdf, 'application/pdf', 'application/x-pdf'],
      [csv, 'text/csv', 'application/csv'],
    ] as const) {
      const stored = await service.call('POST', `${base()}/documents`, manager, bytes, { 'content-type': sent });
      const attached = {
        ...{ id: randomUUID(), type: 'document.attached', version: 1, occurredAt: '2026-06-03T06:10:00-05:00' },
        data: {
          ...{ documentId: randomUUID(), title: 'water test', mediaType: told },
          ...{ byteLength: bytes.length, sha256: stored.json.sha256, about: [] },
        },
      };
      await service.append(op.operationId, manager, [attached]);
    }
    const { bytes } = await taken();
    const came = await there('POST', '/api/v1/operations/import', token, bytes, 'application/x-tar');
    expect([came.status, came.json.documents]).toEqual([201, { taken: 2, notTaken: [] }]);
  });

  /** An archive that its writer has signed, of entries that no service took. */
  const written = async (change: (entries: Record<string, unknown>[]) => void): Promise<Buffer> => {
    const operationId = randomUUID();
    const entry = (seq: number) => ({
      ...{ operationId, seq, recordedAt: '2026-06-03T11:10:20Z', recordedBy: randomUUID() },
      ...{ id: randomUUID(), type: 'batch.closed', version: 1, occurredAt: '2026-06-03T06:10:00-05:00' },
      data: { batchId: randomUUID() },
    });
    const entries: Record<string, unknown>[] = [entry(0), entry(1)];
    change(entries);
    const lines = entries.map((each) => Buffer.from(canonicalText(each)));
    const origin = `furrowmark/${operationId}`;
    const signer = signerFromSeed(origin, Buffer.alloc(32, 7));
    const root = rootOf(extend(emptyFrontier, lines.map(leafHash)).frontier);
    const files = {
      'manifest.json': JSON.stringify({ format: 'furrowmark-archive', version: 1, operationId, partial: false }),
      checkpoint: signCheckpoint({ origin, size: lines.length, root }, [signer]),
      key: verifierKeyText(signer.key),
      'entries.ndjson': lines.map((line) => `${line}\n`).join(''),
    };
    const list = Object.entries(files).map(([name, text]) => ({ name, body: Buffer.from(text) }));
    const chunks: Uint8Array[] = [];
    for await (const chunk of packTar(list.map((each) => ({ ...each, size: each.body.length })))) chunks.push(chunk);
    return Buffer.concat(chunks);
  };
  const both = (members: object) => (entries: Record<string, unknown>[]) =>
    entries.forEach((entry) => Object.assign(entry, members));
  const second = (members: object) => (entries: Record<string, unknown>[]) =>
    void Object.assign(entries[1] ?? {}, members);

  it('takes one that was written elsewhere, where its entries are such as acceptance takes', async () => {
    const came = await there(
      'POST',
      '/api/v1/operations/import',
      token,
      await written(() => undefined),
      'application/x-tar',
    );
    expect(came.status).toBe(201);
  });

  // The key is whoever's made the archive, so that it fits together says nothing of what is in it.
  it.each([
    ['an id twice', both({ id: randomUUID() }), /Entry 1 .* is that of an entry before it/],
    ['an id that is none', second({ id: 'x' }), /Entry 1 .*“id”/],
    ['a name as the writer', second({ recordedBy: 'Ottilie Brandwein' }), /Entry 1 .*“recordedBy”/],
    ['a member that no record has', second({ email: 'ottilie@quillfen.example' }), /Entry 1 .*“email”/],
    ['a day that does not exist', both({ recordedAt: '2026-02-30T00:00:00Z' }), /Entry 0 .*“recordedAt”/],
    ['the year 0', second({ occurredAt: '0000-01-01T00:00:00Z' }), /Entry 1 /],
    ['the end of the year 9999', second({ occurredAt: '9999-12-31T23:59:59-12:00' }), /Entry 1 /],
    [
      'a zone that does not exist',
      second({ type: 'operation.described', data: { name: 'Quillfen Growers', timeZone: 'Nowhere/At' } }),
      /Entry 1 .*“timeZone”/,
    ],
    [
      'a name that is not sealed',
      second({
        type: 'person.registered',
        data: { personId: randomUUID(), personal: { name: 'Ottilie Brandwein' } },
      }),
      /Entry 1 .* not sealed/,
    ],
    [
      'more bytes than an entry may have',
      second({
        type: 'document.attached',
        data: {
          ...{ documentId: randomUUID(), title: 'water test', mediaType: 'text/plain', byteLength: 1 },
          ...{ sha256: '0'.repeat(64), about: Array.from({ length: 1_600 }, () => randomUUID()) },
        },
      }),
      /Entry 1 .* at most 60000/,
    ],
    ['a NUL in a text', second({ data: { batchId: randomUUID(), note: 'a\u0000b' } }), /Entry 1 /],
    [
      'a negative volume',
      second({ data: { batchId: randomUUID(), remainingVolume: { value: -5, unit: 'L' } } }),
      /Entry 1 /,
    ],
  ])('refuses one with %s, signed as it may be', async (_, change, says) => {
    const bytes = await written(change);
    const came = await there('POST', '/api/v1/operations/import', token, bytes, 'application/x-tar');
    expect([came.status, came.text]).toEqual([422, expect.stringMatching(says)]);
  });

  it('refuses what is no archive, and one that is not signed with the key from outside', async () => {
    const noise = await there('POST', '/api/v1/operations/import', token, Buffer.alloc(2048, 7), 'application/x-tar');
    expect(noise.status).toBe(422);
    await grown();
    const mine = await keyLine();
    const { bytes } = await taken();
    const stranger = await service.operation();
    const foreign = (await service.get(`${base(stranger.operationId)}/log/key`, stranger.tokens.manager)).text.trim();
    const under = (key: string) =>
      there('POST', `/api/v1/operations/import?key=${encodeURIComponent(key)}`, token, bytes, 'application/x-tar');
    expect((await under(foreign)).status).toBe(422);
    expect((await under(mine)).status).toBe(201);
  });
});

describe('a witness outside', () => {
  it('is sent the signed checkpoint by mail, and a history rewritten since is found with it', async () => {
    const token = await somebody();
    const made = await there('POST', '/api/v1/operations', token, { name: 'Quillfen Growers', timeZone: 'UTC' });
    const at = base(made.json.operationId);
    await there('POST', `${at}/records`, token, { records: [note('one'), note('two')] });
    const added = await there('POST', `${at}/log/witnesses`, token, {
      address: 'office@certifier.example',
      everyDays: 7,
    });
    expect(added.status).toBe(201);
    await elsewhere.context.get(Schedule).look();
    const [letter, ...more] = letters.filter((each) => each.includes('office@certifier.example'));
    expect(more).toEqual([]);
    expect(letter).toContain('From: records@quillfen.example');
    const note64 = /filename=checkpoint-[\s\S]*?\r\n\r\n([A-Za-z0-9+/=\r\n]+)/.exec(letter ?? '')?.[1] ?? '';
    const mailed = Buffer.from(note64, 'base64').toString('utf8');
    expect(mailed).toBe((await there('GET', `${at}/log/checkpoint`, token)).text);
    const { path } = await taken(token, elsewhere.url, made.json.operationId);
    expect((await checked(path, '--against', kept('mailed', mailed))).code).toBe(0);
    const other = mailed.replace(/\n3\n.{6}/, '\n3\nAAAAAA');
    expect((await checked(path, '--against', kept('mailed', other))).code).toBe(1);

    const { json } = await there('GET', `${at}/log/witnesses`, token);
    expect(json).toMatchObject({
      mail: true,
      witnesses: [{ address: 'office@certifier.example', sentSize: 3, failure: null }],
    });
    await elsewhere.context.get(Schedule).look();
    expect(letters.filter((each) => each.includes('office@certifier.example'))).toHaveLength(1);
    expect((await there('DELETE', `${at}/log/witnesses/${added.json.witnessId}`, token)).status).toBe(204);
    expect((await there('GET', `${at}/log/witnesses`, token)).json.witnesses).toEqual([]);
    // The address stands beside the log, never in it.
    expect((await there('GET', `${at}/log/entries`, token)).text).not.toContain('certifier.example');
  });

  it('refuses what is no address, and is told of only by a manager', async () => {
    await grown();
    const asked = (token: string, address: string) =>
      service.call('POST', `${base()}/log/witnesses`, token, { address });
    expect((await asked(op.tokens.manager, 'nobody')).status).toBe(422);
    expect((await asked(op.tokens.manager, 'a@b.example\r\nBcc: c@d.example')).status).toBe(422);
    expect((await asked(op.tokens.recorder, 'a@b.example')).status).toBe(403);
  });
});

function swap(files: Map<string, Buffer>, name: string, from: string, to: string): void {
  const text = files.get(name)?.toString('utf8') ?? '';
  expect(text).toContain(from);
  files.set(name, Buffer.from(text.replace(from, to)));
}

function dataDirOf({ service: running }: TestService): string {
  expect(running.database).toBeDefined();
  const dataDir = temporaryFolder('data');
  expect(existsSync(join(dataDir, 'log-signing-key'))).toBe(true);
  return dataDir;
}
