import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { leafHash, rootOf, extend, emptyFrontier, base64 } from '@furrowmark/log';
import { TestService, type Answer, type TestOperation } from './support/service.ts';

const phrase = 'nettle harrow tuesday bucket';
let service: TestService;
let op: TestOperation;
beforeAll(async () => {
  service = await TestService.start();
  op = await service.operation();
  for (const role of ['reviewer', 'manager'] as const) {
    const body = { login: `signer-${randomUUID()}`, password: phrase };
    expect((await service.call('PUT', '/api/v1/account/password', op.tokens[role], body)).status).toBe(204);
  }
}, 60_000);
afterAll(() => service.close());

const base = (): string => `/api/v1/operations/${op.operationId}`;
const record = (type: string, data: object) => ({
  ...{ id: randomUUID(), type, version: 1, occurredAt: '2026-06-03T06:10:00-05:00', data },
});
async function batch(): Promise<{ batchId: string; checkId: string }> {
  const batchId = randomUUID();
  const check = record('batch.checked', { batchId, odour: 'earthy' });
  const opened = record('batch.opened', { batchId, code: 'T-14', kind: 'aeratedTea', vesselId: randomUUID() });
  await service.append(op.operationId, op.tokens.recorder, [opened, check]);
  return { batchId, checkId: check.id };
}
const sign = (batchId: string, body: object, token = op.tokens.reviewer): Promise<Answer> =>
  service.call('POST', `${base()}/batches/${batchId}/reviews`, token, {
    ...{ meaning: 'reviewed', statement: 'I have read every record of this batch.' },
    ...body,
  });
const reviews = async (batchId: string) =>
  (await service.get(`${base()}/batches/${batchId}/reviews`, op.tokens.inspector)).json.reviews;
const size = async (): Promise<number> =>
  (await service.get(`${base()}/records?limit=1`, op.tokens.manager)).json.asOfSeq + 1;

/** The root over the first entries of the log, worked out from their bytes alone. */
async function rootOver(count: number): Promise<string> {
  const { text } = await service.get(`${base()}/log/entries?from=0&to=${count}`, op.tokens.inspector);
  const leaves = text
    .trim()
    .split('\n')
    .map((line) => leafHash(Buffer.from(line)));
  expect(leaves).toHaveLength(count);
  return base64(rootOf(extend(emptyFrontier, leaves).frontier));
}

describe('signing a batch', () => {
  it('takes the signer’s password, and binds size and root of the log that was signed', async () => {
    const { batchId } = await batch();
    const before = await size();
    const signed = await sign(batchId, { password: phrase });
    expect(signed.status).toBe(201);
    expect(signed.json).toMatchObject({
      ...{ seq: before, throughSeq: before - 1, proof: 'password' },
      signed: { size: before, root: await rootOver(before) },
      log: { size: before + 1 },
    });
    expect(await reviews(batchId)).toEqual([
      expect.objectContaining({
        ...{ recordId: signed.json.recordId, recordedBy: op.accounts.reviewer, name: 'Rafael' },
        ...{ meaning: 'reviewed', statement: 'I have read every record of this batch.', proof: 'password' },
        ...{ signed: signed.json.signed, laterRecordIds: [], coversCurrentState: true },
      }),
    ]);
    const { facts, phase } = (await service.get(`${base()}/batches/${batchId}`, op.tokens.inspector)).json;
    expect([phase, facts === undefined]).toEqual(['open', false]);
  });

  it('is in the log as batch.reviewed, with nothing of the password', async () => {
    const { batchId } = await batch();
    const { json } = await sign(batchId, { password: phrase, meaning: 'approved' });
    const { records } = (await service.get(`${base()}/records?about=${batchId}&type=batch.reviewed`, op.tokens.manager))
      .json;
    expect(records).toEqual([
      expect.objectContaining({
        id: json.recordId,
        data: {
          ...{ batchId, throughSeq: json.throughSeq, meaning: 'approved' },
          statement: 'I have read every record of this batch.',
        },
      }),
    ]);
    expect((await service.get(`${base()}/log/entries`, op.tokens.manager)).text).not.toContain(phrase);
  });

  it('sent again with its id it is the same signature, even where others recorded meanwhile; the password is asked each time', async () => {
    const { batchId } = await batch();
    const body = { id: randomUUID(), password: phrase };
    const first = await sign(batchId, body);
    await batch();
    const again = await sign(batchId, body);
    expect(again.status).toBe(201);
    expect(again.json).toMatchObject({ ...first.json, log: { size: await size() } });
    expect(await reviews(batchId)).toHaveLength(1);
    expect(first.json.recordId).toBe(body.id);
    expect((await sign(batchId, { ...body, password: 'not the password' })).status).toBe(403);
  });

  it('sent several times at once, one is signed and all have the same answer', async () => {
    const { batchId } = await batch();
    const body = { id: randomUUID(), password: phrase };
    const answers = await Promise.all([1, 2, 3, 4].map(() => sign(batchId, body)));
    expect(answers.map(({ status }) => status)).toEqual([201, 201, 201, 201]);
    expect(new Set(answers.map(({ json }) => `${json.seq} ${json.recordedAt} ${json.signed.root}`)).size).toBe(1);
    expect(await reviews(batchId)).toHaveLength(1);
  });

  it('an id that stands for something else signs nothing', async () => {
    const [{ batchId, checkId }, other] = [await batch(), await batch()];
    const id = randomUUID();
    expect((await sign(batchId, { id, password: phrase })).status).toBe(201);
    for (const refused of [
      await sign(batchId, { id: checkId, password: phrase }),
      await sign(other.batchId, { id, password: phrase }),
      await sign(batchId, { id, password: phrase, meaning: 'approved' }),
      await sign(batchId, { id, password: phrase, statement: 'I have read half of it.' }),
      await sign(batchId, { id, password: phrase, throughSeq: 1 }),
      await sign(batchId, { id, password: phrase }, op.tokens.manager),
    ])
      expect([refused.status, refused.json.errors]).toEqual([409, [{ pointer: '/id', detail: 'was used before' }]]);
    expect(await reviews(batchId)).toHaveLength(1);
    expect(await reviews(other.batchId)).toHaveLength(0);
  });

  it('covers what the signer had before them, when others recorded meanwhile', async () => {
    const { batchId } = await batch();
    const seen = (await size()) - 1;
    const late = record('batch.checked', { batchId, odour: 'sour' });
    await service.append(op.operationId, op.tokens.recorder, [late]);
    const { json } = await sign(batchId, { password: phrase, throughSeq: seen });
    expect(json.signed).toEqual({ size: seen + 1, root: await rootOver(seen + 1) });
    expect((await reviews(batchId))[0]).toMatchObject({ coversCurrentState: false, laterRecordIds: [late.id] });
  });

  it('a later amendment, strike or record shows the signature as covering an earlier state', async () => {
    const { batchId, checkId } = await batch();
    await sign(batchId, { password: phrase });
    const amended = record('record.amended', {
      ...{ recordId: checkId, type: 'batch.checked', version: 1, reason: 'smelled again' },
      data: { batchId, odour: 'sour' },
    });
    await service.append(op.operationId, op.tokens.reviewer, [amended]);
    expect((await reviews(batchId))[0]).toMatchObject({ coversCurrentState: false, laterRecordIds: [amended.id] });
    await sign(batchId, { password: phrase }, op.tokens.manager);
    const both = await reviews(batchId);
    expect(both.map(({ coversCurrentState }: { coversCurrentState: boolean }) => coversCurrentState)).toEqual([
      false,
      true,
    ]);
    const struck = record('record.struck', { recordId: checkId, type: 'batch.checked', reason: 'wrong tank' });
    await service.append(op.operationId, op.tokens.reviewer, [struck]);
    const after = await reviews(batchId);
    expect(after[1]).toMatchObject({ coversCurrentState: false, laterRecordIds: [struck.id] });
  });

  it('a record that an amendment turns to another batch shows as well', async () => {
    const { batchId, checkId } = await batch();
    await sign(batchId, { password: phrase });
    const turned = record('record.amended', {
      ...{ recordId: checkId, type: 'batch.checked', version: 1, reason: 'wrong tank' },
      data: { batchId: randomUUID(), odour: 'earthy' },
    });
    await service.append(op.operationId, op.tokens.reviewer, [turned]);
    expect((await reviews(batchId))[0]).toMatchObject({ coversCurrentState: false, laterRecordIds: [turned.id] });
  });

  it.each([
    ['a wrong password', { password: 'something else altogether' }, 403, '/password'],
    ['no password', {}, 422, '/password'],
    ['a PIN, away from a shared phone', { pin: '4831' }, 422, '/password'],
    ['no statement', { password: phrase, statement: ' ' }, 422, '/statement'],
    ['a state that the log does not have', { password: phrase, throughSeq: 1_000_000 }, 422, '/throughSeq'],
  ])('with %s nothing is signed', async (_, body, status, pointer) => {
    const { batchId } = await batch();
    const before = await size();
    const answer = await sign(batchId, body);
    expect([answer.status, answer.json.errors[0].pointer]).toEqual([status, pointer]);
    expect(await size()).toBe(before);
    expect(await reviews(batchId)).toEqual([]);
  });

  it('is for reviewers and managers, and for a batch that there is', async () => {
    const { batchId } = await batch();
    expect((await sign(batchId, { password: phrase }, op.tokens.recorder)).status).toBe(403);
    expect((await sign(batchId, { password: phrase }, op.tokens.inspector)).status).toBe(403);
    expect((await sign(randomUUID(), { password: phrase })).status).toBe(404);
  });

  it('who has no password cannot sign this way', async () => {
    const { batchId } = await batch();
    const { token, accountId } = await service.person('Without');
    await service.service.grant({ operationId: op.operationId, accountId, role: 'reviewer' });
    expect((await sign(batchId, { password: phrase }, token)).status).toBe(403);
  });
});

describe('a review that a program appends', () => {
  it('is taken, and shown as one without proof of who signed', async () => {
    const { batchId } = await batch();
    const throughSeq = (await size()) - 1;
    const plain = record('batch.reviewed', { batchId, throughSeq, meaning: 'reviewed', statement: 'Looked at.' });
    const { json } = await service.append(op.operationId, op.tokens.reviewer, [plain]);
    expect(json.results[0].status).toBe('recorded');
    expect(await reviews(batchId)).toEqual([
      expect.objectContaining({
        ...{ recordId: plain.id, proof: null, coversCurrentState: true },
        signed: { size: throughSeq + 1, root: await rootOver(throughSeq + 1) },
      }),
    ]);
  });

  it('over entries that were not there yet covers no state of the log', async () => {
    const { batchId } = await batch();
    const plain = record('batch.reviewed', { batchId, throughSeq: 900_000, meaning: 'reviewed', statement: 'All.' });
    await service.append(op.operationId, op.tokens.reviewer, [plain]);
    expect((await reviews(batchId))[0]).toMatchObject({ signed: null });
  });
});
