import { createServer, request, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import { v7 } from 'uuid';
import { TestService } from './support/service.ts';
import { builtApp, Phone } from './web/browser.ts';
import { farm, type Farm } from './web/farm.ts';

let service: TestService;
let op: Farm;
let phone: Phone;
let front: Server;
/** What stands between the phone and the service: which version of the app it hands out, and whether it takes records. */
let version = 1;
let takes = true;

beforeAll(async () => {
  await builtApp();
  service = await TestService.start();
  front = createServer((question, answer) => {
    if (question.method === 'POST' && !takes) {
      answer.writeHead(503, { 'retry-after': '1', 'content-type': 'application/json' }).end('{}');
      return;
    }
    // Asked for anew each time: what is handed out here is not what the service has.
    delete question.headers['if-none-match'];
    delete question.headers['if-modified-since'];
    // A line is put under what the service sends, so it has to come as it is.
    delete question.headers['accept-encoding'];
    const target = new URL(question.url ?? '/', service.url);
    const onward = request(target, { method: question.method, headers: question.headers }, (got) => {
      const headers = { ...got.headers };
      if (target.pathname !== '/sw.js') {
        answer.writeHead(got.statusCode ?? 502, headers);
        got.pipe(answer);
        return;
      }
      delete headers['content-length'];
      delete headers.etag;
      answer.writeHead(got.statusCode === 304 ? 304 : 200, headers);
      got.on('end', () => answer.end(`\n// version ${String(version)}`));
      got.pipe(answer, { end: false });
    });
    onward.on('error', () => answer.destroy());
    question.pipe(onward);
  });
  await new Promise<void>((ready) => front.listen(0, '127.0.0.1', ready));
}, 120_000);
beforeEach(async () => {
  op = await farm(service);
  phone = await Phone.kept();
}, 60_000);
afterEach(() => phone.close(), 30_000);
afterAll(async () => {
  front.closeAllConnections();
  await new Promise((done) => front.close(done));
  await service.close();
}, 30_000);

const address = (): string => `http://127.0.0.1:${String((front.address() as AddressInfo).port)}`; // eslint-disable-line @typescript-eslint/consistent-type-assertions -- a TCP server's address is of this kind

async function count(type: string): Promise<number> {
  const answer = await service.get(
    `/api/v1/operations/${op.operationId}/records?limit=1000&type=${type}`,
    op.tokens.manager,
  );
  return answer.json.records.length;
}
async function until(look: () => Promise<boolean>): Promise<void> {
  const end = Date.now() + 40_000;
  while (!(await look())) {
    if (Date.now() > end) throw new Error('waited in vain');
    await new Promise((done) => setTimeout(done, 200));
  }
}

describe('a new version of the app', () => {
  it('waits for the person’s word, and never loses what waits to be sent', async () => {
    const { page } = phone;
    await phone.signIn(address(), op, `/tank/${op.ids.brewing}`);
    const before = await count('batch.oxygenMeasured');
    takes = false;
    await page.getByRole('link', { name: /Record oxygen/ }).tap();
    await page.getByRole('button', { name: '7.0', exact: true }).tap();
    await page.getByRole('button', { name: 'Record', exact: true }).tap();
    await page.getByRole('link', { name: /1 waiting for reception/ }).waitFor();
    version = 2;
    await page.reload();
    await page.getByText('A new version is here. Nothing that waits is lost.').waitFor();
    await page.getByRole('link', { name: /1 waiting for reception/ }).waitFor();
    await page.getByRole('button', { name: 'Use it now' }).tap();
    await page.waitForEvent('load');
    await page.getByRole('button', { name: /Oxygen 7 mg\/L.*waits/ }).waitFor();
    expect(await page.getByText('A new version is here').count()).toBe(0);
    expect(await count('batch.oxygenMeasured')).toBe(before);
    takes = true;
    await until(async () => (await count('batch.oxygenMeasured')) === before + 1);
    await page.getByRole('link', { name: /All recorded/ }).waitFor();
  }, 120_000);
});

describe('an app that was never opened since the version before', () => {
  // The device's store as version 1 of it was: the stores and indexes that the first released app made, filled as it
  // filled them. Kept here as it was; it must not follow what the app makes now.
  const versionOne = (records: readonly object[], session: object): string => `(async () => {
    const db = await new Promise((done, failed) => {
      const opening = indexedDB.open('furrowmark', 1);
      opening.onupgradeneeded = () => {
        const db = opening.result;
        db.createObjectStore('entries', { keyPath: ['operationId', 'seq'] });
        db.createObjectStore('read', { keyPath: 'operationId' });
        db.createObjectStore('queue', { keyPath: 'id' }).createIndex('inOrder', ['operationId', 'order']);
        db.createObjectStore('files', { keyPath: 'sha256' });
      };
      opening.onsuccess = () => done(opening.result);
      opening.onerror = () => failed(opening.error);
    });
    const transaction = db.transaction(['queue', 'files'], 'readwrite');
    for (const each of ${JSON.stringify(records)}) transaction.objectStore('queue').put(each);
    const bytes = new TextEncoder().encode('%PDF-1.4 a paper');
    const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
    const sha256 = [...digest].map((byte) => byte.toString(16).padStart(2, '0')).join('');
    const files = db.transaction('files', 'readwrite').objectStore('files');
    files.put({ sha256, operationId: ${JSON.stringify(op.operationId)}, mediaType: 'application/pdf', title: 'paper', blob: new Blob([bytes]) });
    await new Promise((done) => { files.transaction.oncomplete = done; });
    db.close();
    localStorage.setItem('furrowmark.session', ${JSON.stringify(JSON.stringify(session))});
    return sha256;
  })()`;

  it('sends everything that its queue held, in order, and loses neither the refused one nor the paper', async () => {
    takes = true;
    const { page } = phone;
    const before = await count('batch.oxygenMeasured');
    const started = Date.now() - 3_600_000;
    const text = (at: number): string => new Date(at).toISOString();
    const queued = Array.from({ length: 120 }, (_, i) => ({
      ...{ id: v7(), operationId: op.operationId, order: i + 1, state: { kind: 'waiting' } },
      record: {
        ...{ type: 'batch.oxygenMeasured', version: 1 },
        ...{ occurredAt: text(started + i * 1_000), enteredAt: text(started + i * 1_000) },
        data: { batchId: op.ids.brewing, dissolvedOxygen: { value: Number((7 + i / 1000).toFixed(3)), unit: 'mg/L' } },
      },
    })).map((each) => ({ ...each, record: { id: each.id, ...each.record } }));
    const refused = {
      ...queued[0],
      ...{ id: v7(), order: 121 },
      state: { kind: 'refused', problem: { title: 'no', detail: 'It was not taken then.', errors: [] } },
    };
    await page.goto(`${address()}/healthz`);
    const sha256: string = await page.evaluate(
      versionOne([...queued, { ...refused, record: { ...queued[0]?.record, id: refused.id } }], {
        ...{ token: op.tokens.recorder, operationId: op.operationId, ended: false },
        ...{ role: null, operationName: null, timeZone: null },
      }),
    );
    await page.goto(`${address()}/waiting`);
    await until(async () => (await count('batch.oxygenMeasured')) === before + 120);
    const answer = await service.get(
      `/api/v1/operations/${op.operationId}/records?limit=1000&type=batch.oxygenMeasured`,
      op.tokens.manager,
    );
    const sent = answer.json.records.slice(-120).map(({ id }: { id: string }) => id);
    expect(sent).toEqual(queued.map(({ id }) => id));
    await page.getByText('It was not taken then.').waitFor();
    const kept = await service.get(`/api/v1/operations/${op.operationId}/documents/${sha256}`, op.tokens.manager);
    expect(kept.text).toBe('%PDF-1.4 a paper');
    expect(phone.complaints).toEqual([]);
  }, 120_000);
});

describe('a photo', () => {
  it('goes to the service with the record that it belongs to, without what the camera wrote into it', async () => {
    takes = true;
    const { page } = phone;
    await phone.signIn(address(), op, `/tank/${op.ids.brewing}/record/look`);
    await page.getByRole('checkbox', { name: 'earthy' }).tap();
    await page.locator('input[type=file]').setInputFiles({
      name: 'IMG_1.jpg',
      mimeType: 'image/jpeg',
      buffer: Buffer.from(await picture(page), 'base64'),
    });
    await page.getByText('1 photo goes with it').waitFor();
    await page.getByRole('button', { name: 'Record', exact: true }).tap();
    await until(async () => (await count('document.attached')) === 1);
    const answer = await service.get(
      `/api/v1/operations/${op.operationId}/records?limit=1000&type=document.attached,batch.checked`,
      op.tokens.manager,
    );
    const [check, attached] = ['batch.checked', 'document.attached'].map((type) =>
      answer.json.records.findLast((each: { type: string }) => each.type === type),
    );
    expect(check.data).toMatchObject({ odour: 'earthy', documentIds: [attached.data.documentId] });
    expect(attached.data.about).toContain(check.id);
    const kept = await service.get(
      `/api/v1/operations/${op.operationId}/documents/${String(attached.data.sha256)}`,
      op.tokens.manager,
    );
    expect(kept.status).toBe(200);
    expect(kept.headers.get('content-type')).toBe('image/jpeg');
    expect(kept.text).not.toContain('camera of somebody');
  }, 90_000);
});

/** A JPEG as a camera writes it: with a comment segment that says whose it is. */
async function picture(page: Phone['page']): Promise<string> {
  return page.evaluate(`(async () => {
    const canvas = new OffscreenCanvas(40, 30);
    const ink = canvas.getContext('2d');
    ink.fillStyle = '#7a5c2e';
    ink.fillRect(0, 0, 40, 30);
    const plain = new Uint8Array(await (await canvas.convertToBlob({ type: 'image/jpeg' })).arrayBuffer());
    const words = new TextEncoder().encode('camera of somebody');
    const comment = [0xff, 0xfe, 0, words.length + 2, ...words];
    const whole = new Uint8Array([...plain.slice(0, 2), ...comment, ...plain.slice(2)]);
    return btoa(String.fromCharCode(...whole));
  })()`);
}
