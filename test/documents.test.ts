import { createHash, randomBytes } from 'node:crypto';
import { chmodSync, existsSync, readdirSync, readFileSync, rmSync, statSync, utimesSync, writeFileSync } from 'node:fs';
import { request } from 'node:http';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { testDatabase } from './support/database.ts';
import { TestService, type Answer, type TestOperation } from './support/service.ts';

const mib = 1024 * 1024;
let service: TestService;
let op: TestOperation;
let other: TestOperation;
let folder: string;
beforeAll(async () => {
  service = await TestService.start();
  [op, other] = [await service.operation(), await service.operation()];
  folder = join((await testDatabase()).dataDir, 'documents');
}, 60_000);
afterAll(() => service.close());

const path = (operationId = op.operationId): string => `/api/v1/operations/${operationId}/documents`;
const digest = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');
const send = (bytes: Uint8Array, mediaType: string, token = op.tokens.recorder): Promise<Answer> =>
  service.call('POST', path(), token, bytes, { 'content-type': mediaType });
const place = (sha256: string): string => join(folder, op.operationId, sha256.slice(0, 2), sha256);

/** Files as their formats' specifications begin them, made different by what follows. */
const pdf = (more: Uint8Array = randomBytes(40)): Buffer =>
  Buffer.concat([Buffer.from('%PDF-1.7\n%âãÏÓ\n', 'latin1'), more]);
const png = (): Buffer =>
  Buffer.concat([
    Buffer.from('89504e470d0a1a0a0000000d494844520000000100000001080600000' + '01f15c489', 'hex'),
    Buffer.from('0000000a49444154', 'hex'),
    randomBytes(10),
  ]);
const jpeg = (): Buffer => Buffer.concat([Buffer.from('ffd8ffe000104a46494600010100', 'hex'), randomBytes(40)]);

describe('a document', () => {
  it.each([
    ['a lab report', pdf, 'application/pdf', 'pdf'],
    ['a photo', jpeg, 'image/jpeg', 'jpg'],
    ['a drawing', png, 'image/png', 'png'],
    ['a table', () => Buffer.from(`day,mg/L\n2026-06-03,${Math.random()}\n`), 'text/csv', 'csv'],
  ])('%s is kept and given back as it was, to be saved and never run', async (_, make, mediaType, ending) => {
    const bytes = make();
    const sha256 = digest(bytes);
    const kept = await send(bytes, mediaType);
    expect([kept.status, kept.json]).toEqual([
      201,
      { sha256, byteLength: bytes.length, mediaType, url: `${path()}/${sha256}` },
    ]);
    const back = await fetch(service.url + kept.json.url, {
      headers: { authorization: `Bearer ${op.tokens.inspector}` },
    });
    expect(Buffer.from(await back.arrayBuffer()).equals(bytes)).toBe(true);
    expect(Object.fromEntries(back.headers)).toMatchObject({
      'content-type': mediaType,
      'content-length': String(bytes.length),
      'content-disposition': `attachment; filename="${sha256}.${ending}"`,
      'x-content-type-options': 'nosniff',
      'content-security-policy': "sandbox; default-src 'none'",
      etag: `"${sha256}"`,
    });
  });

  it('sent again is the same one, and is not kept twice', async () => {
    const bytes = pdf();
    expect((await send(bytes, 'application/pdf')).status).toBe(201);
    const again = await send(bytes, 'application/pdf', op.tokens.manager);
    expect([again.status, again.json.sha256]).toEqual([200, digest(bytes)]);
  });

  it('that the reader has already is not sent again', async () => {
    const bytes = pdf();
    const { url, sha256 } = (await send(bytes, 'application/pdf')).json;
    const answer = await service.get(url, op.tokens.recorder, { 'if-none-match': `"${sha256}"` });
    expect([answer.status, answer.text]).toEqual([304, '']);
  });

  it('of somebody else, or that there is not, is unknown', async () => {
    const bytes = pdf();
    const { sha256 } = (await send(bytes, 'application/pdf')).json;
    const ask = (operationId: string, name: string, token: string) =>
      service.get(`${path(operationId)}/${name}`, token);
    const answers = [
      await ask(op.operationId, sha256, other.tokens.manager),
      await ask(other.operationId, sha256, other.tokens.manager),
      await ask(op.operationId, '0'.repeat(64), op.tokens.manager),
      await ask(op.operationId, encodeURIComponent('../../service-login.json'), op.tokens.manager),
    ];
    for (const answer of answers) expect([answer.status, answer.json]).toEqual([404, answers[0]?.json]);
    expect((await service.get(`${path()}/${sha256}`)).status).toBe(401);
  });

  it('inspectors do not attach', async () => {
    expect((await send(pdf(), 'application/pdf', op.tokens.inspector)).status).toBe(403);
  });
});

describe('what is taken', () => {
  it('25 MiB are, one byte more is not, and nothing of it stays', async () => {
    const whole = pdf(Buffer.alloc(25 * mib - 15, 7));
    expect(whole.length).toBe(25 * mib);
    expect(await onNewLine(whole, { announced: true })).toBe(201);
    const more = Buffer.concat([whole, Buffer.from('x')]);
    expect(await onNewLine(more, { announced: true })).toBe(413);
    expect(await onNewLine(more, { announced: false })).toBe(413);
    expect(readdirSync(join(folder, 'arriving'))).toEqual([]);
    expect(existsSync(place(digest(more)))).toBe(false);
  });

  it('what breaks off leaves nothing', async () => {
    await new Promise<void>((resolve) => {
      const sending = request(service.url + path(), {
        method: 'POST',
        headers: {
          ...{ authorization: `Bearer ${op.tokens.recorder}`, 'content-type': 'application/pdf' },
          'content-length': String(5 * mib),
        },
      });
      sending.on('error', () => resolve());
      sending.write(pdf(Buffer.alloc(mib)), () => setTimeout(() => sending.destroy(new Error('no reception')), 100));
    });
    for (let waited = 0; readdirSync(join(folder, 'arriving')).length > 0 && waited < 50; waited += 1) await pause(20);
    expect(readdirSync(join(folder, 'arriving'))).toEqual([]);
    expect((await send(pdf(), 'application/pdf')).status).toBe(201);
  });

  it('what a killed process left half written is cleared away once it is a day old, by the next that starts', async () => {
    const [old, fresh] = [join(folder, 'arriving', 'old'), join(folder, 'arriving', 'fresh')];
    for (const each of [old, fresh]) writeFileSync(each, 'half');
    const yesterday = new Date(Date.now() - 25 * 3_600_000);
    utimesSync(old, yesterday, yesterday);
    await service.close();
    service = await TestService.start();
    op = await service.operation();
    expect((await send(pdf(), 'application/pdf')).status).toBe(201);
    expect(readdirSync(join(folder, 'arriving'))).toEqual(['fresh']);
    rmSync(fresh);
  });

  it.each([
    ['a page with a script', Buffer.from('<!doctype html><script>alert(1)</script>'), 'text/html'],
    ['a drawing that can run scripts', Buffer.from('<svg xmlns="http://www.w3.org/2000/svg"/>'), 'image/svg+xml'],
    ['a program', Buffer.from('7f454c4602010100000000000000000002003e00', 'hex'), 'application/octet-stream'],
    ['a page that calls itself a photo', Buffer.from('<!doctype html><p>x'), 'image/jpeg'],
    ['a photo that calls itself a report', jpeg(), 'application/pdf'],
    ['bytes that call themselves text', Buffer.from([0, 1, 2, 3, 255]), 'text/plain'],
    ['something without a type', Buffer.from('words'), ''],
    ['an archive', Buffer.from('504b030414000000080000002100', 'hex'), 'application/zip'],
  ])('%s is not', async (_, bytes, mediaType) => {
    const answer = await send(bytes, mediaType);
    expect([answer.status, answer.json.type]).toEqual([415, '/problems/unsupported-media-type']);
    expect(readdirSync(join(folder, 'arriving'))).toEqual([]);
  });

  it('nothing at all is not', async () => {
    expect((await send(Buffer.alloc(0), 'application/pdf')).status).toBe(422);
  });

  it('compressed bytes are not', async () => {
    const headers = { 'content-type': 'application/pdf', 'content-encoding': 'gzip' };
    expect((await service.call('POST', path(), op.tokens.recorder, pdf(), headers)).status).toBe(415);
  });

  it('files belong to the service alone and cannot be run', async () => {
    const { sha256 } = (await send(pdf(), 'application/pdf')).json;
    expect(statSync(place(sha256)).mode & 0o777).toBe(0o600);
    expect(statSync(join(folder, op.operationId)).mode & 0o777).toBe(0o700);
  });
});

describe('a file that was changed behind the service’s back', () => {
  it('is not given out as if it were the document: altered', async () => {
    const bytes = pdf();
    const { url, sha256 } = (await send(bytes, 'application/pdf')).json;
    chmodSync(place(sha256), 0o600);
    const changed = Buffer.from(readFileSync(place(sha256)));
    changed[20] = (changed[20] ?? 0) ^ 1;
    writeFileSync(place(sha256), changed);
    const answer = await service.get(url, op.tokens.recorder);
    expect([answer.status, answer.json.type]).toEqual([500, '/problems/document-altered']);
    expect(answer.headers.get('cache-control')).toBe('no-store');
  });

  it('is told apart from one that is gone; who still has it puts it right', async () => {
    const bytes = pdf();
    const { url, sha256 } = (await send(bytes, 'application/pdf')).json;
    rmSync(place(sha256));
    expect((await service.get(url, op.tokens.recorder)).json).toMatchObject({
      status: 410,
      type: '/problems/document-missing',
    });
    expect((await send(bytes, 'application/pdf')).status).toBe(200);
    expect((await service.get(url, op.tokens.recorder)).status).toBe(200);
  });
});

/** Sends on a connection of its own, its length announced or, as by a program that does not know how much will come, not. */
function onNewLine(bytes: Uint8Array, { announced }: { readonly announced: boolean }): Promise<number> {
  return new Promise((resolve, reject) => {
    const sending = request(
      service.url + path(),
      {
        method: 'POST',
        // Megabytes on a machine that is busy: a connection that stood idle may be closed by then.
        agent: false,
        headers: {
          ...{ authorization: `Bearer ${op.tokens.recorder}`, 'content-type': 'application/pdf' },
          ...(announced ? { 'content-length': bytes.length } : {}),
        },
      },
      (answer) => {
        answer.resume();
        resolve(answer.statusCode ?? 0);
      },
    );
    sending.on('error', reject);
    for (let at = 0; at < bytes.length; at += mib) sending.write(bytes.subarray(at, at + mib));
    sending.end();
  });
}
