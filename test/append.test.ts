import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import { note, TestService, type TestOperation } from './support/service.ts';

let service: TestService;
let op: TestOperation;
beforeAll(async () => {
  service = await TestService.start();
}, 60_000);
beforeEach(async () => {
  op = await service.operation();
});
afterAll(() => service.close());

const append = (records: readonly unknown[], role: keyof TestOperation['tokens'] = 'recorder') =>
  service.append(op.operationId, op.tokens[role], records);

describe('appending records', () => {
  it('gives each record the next seq, and says how large the log is now', async () => {
    const records = [note('one'), note('two')];
    const answer = await append(records);
    expect(answer.status).toBe(200);
    expect(answer.json.results).toEqual([
      { id: records[0]?.id, status: 'recorded', seq: 1, recordedAt: expect.any(String) },
      { id: records[1]?.id, status: 'recorded', seq: 2, recordedAt: expect.any(String) },
    ]);
    expect(answer.json.log.size).toBe(3);
    expect(answer.json.log.root).toMatch(/^[A-Za-z0-9+/]{43}=$/);
  });

  it('begins the log of a new operation with operation.described', async () => {
    const answer = await service.get(`/api/v1/operations/${op.operationId}/records`, op.tokens.inspector);
    expect(answer.json.records).toHaveLength(1);
    expect(answer.json.records[0]).toMatchObject({
      seq: 0,
      type: 'operation.described',
      data: { name: 'Quillfen Growers', timeZone: 'America/New_York' },
      recordedBy: op.accounts.manager,
    });
  });

  it('answers a record sent again with the first seq, whoever sends it and however often', async () => {
    const record = note('sent twice');
    await append([note('before'), record]);
    const again = await append([record, record], 'reviewer');
    expect(again.json.results.map((r: { status: string; seq: number }) => [r.status, r.seq])).toEqual([
      ['duplicate', 2],
      ['duplicate', 2],
    ]);
    expect(again.json.log.size).toBe(3);
  });

  it('takes a record once that stands twice in one request', async () => {
    const record = note('once');
    const { json } = await append([record, note('between'), record]);
    expect(json.results.map((r: { status: string; seq: number }) => [r.status, r.seq])).toEqual([
      ['recorded', 1],
      ['recorded', 2],
      ['duplicate', 1],
    ]);
  });

  it('takes the same content however its JSON is written: member order, spaces, escapes, 1.0 for 1', async () => {
    const id = randomUUID();
    const first = `{"records":[{"id":"${id}","type":"batch.checked","version":1,"occurredAt":"2026-06-03T06:10:00-05:00","data":{"batchId":"01976f00-0000-7000-8000-0000000000b1","note":"é"}}]}`;
    const second = `{"records":[ {"data":{"note":"\\u00e9","batchId":"01976f00-0000-7000-8000-0000000000b1"},"occurredAt":"2026-06-03T06:10:00-05:00","version":1.0,"type":"batch.checked","id":"${id}"} ]}`;
    const path = `/api/v1/operations/${op.operationId}/records`;
    expect((await service.call('POST', path, op.tokens.recorder, first)).json.results[0].status).toBe('recorded');
    expect((await service.call('POST', path, op.tokens.recorder, second)).json.results[0].status).toBe('duplicate');
  });

  it('refuses other content under a known id, and leaves no trace of it', async () => {
    const record = note('first');
    await append([record]);
    const other = await append([{ ...record, data: { ...Object(record['data']), note: 'second' } }]);
    expect(other.json.results[0]).toMatchObject({
      id: record.id,
      status: 'refused',
      problem: { type: '/problems/id-reused', code: 'id-reused', errors: [{ pointer: '/id' }] },
    });
    expect(other.json.log.size).toBe(2);
  });

  it('refuses other content under an id used earlier in the same request', async () => {
    const record = note('first');
    const { json } = await append([record, { ...record, occurredAt: '2026-06-03T07:10:00-05:00' }]);
    expect(json.results.map((r: { status: string }) => r.status)).toEqual(['recorded', 'refused']);
  });

  it('lets no bad record block its neighbours, and names the member that is wrong', async () => {
    const bad = note('bad', { data: { batchId: '01976f00-0000-7000-8000-0000000000b1', nota: 'x' } });
    const { status, json } = await append([note('before'), bad, 7, null, note('after')]);
    expect(status).toBe(200);
    expect(json.results.map((r: { status: string }) => r.status)).toEqual([
      'recorded',
      'refused',
      'refused',
      'refused',
      'recorded',
    ]);
    expect(json.results[1].problem.errors[0].pointer).toBe('/data/nota');
    expect(json.log.size).toBe(3);
  });

  it('refuses a record id in the server’s hands and types that only the server writes', async () => {
    const { json } = await append([
      note('x', { seq: 5 }),
      { ...note('x'), type: 'key.replaced', data: { previousKey: 'a', key: 'b', reason: 'c' } },
    ]);
    expect(json.results.map((r: { problem: { code: string } }) => r.problem.code)).toEqual([
      'not-permitted',
      'not-permitted',
    ]);
  });

  it('refuses a record above 60,000 bytes of canonical JSON, alone', async () => {
    const long = 'x'.repeat(9_999);
    const large = note('', {
      type: 'certifier.notified',
      data: { about: Array.from({ length: 1_600 }, () => randomUUID()), how: long },
    });
    const { json } = await append([large, note('small')]);
    expect(json.results.map((r: { status: string }) => r.status)).toEqual(['refused', 'recorded']);
    expect(json.results[0].problem.code).toBe('record-too-large');
  });

  it('keeps text as it was sent: what looks alike in Unicode is not the same', async () => {
    const composed = 'caf\u00e9';
    const decomposed = 'cafe\u0301';
    await append([note(composed), note(decomposed)]);
    const { json } = await service.get(`/api/v1/operations/${op.operationId}/records?after=0`, op.tokens.recorder);
    expect(json.records.map((r: { data: { note: string } }) => r.data.note)).toEqual([composed, decomposed]);
  });

  it('appends requests that arrive together without losing or doubling any, seq without gaps', async () => {
    const shared = note('sent by all');
    const answers = await Promise.all(
      Array.from({ length: 40 }, (_, i) => append([note(`load ${i}`), shared, { id: 'not a uuid' }])),
    );
    const results = answers.flatMap((answer) => answer.json.results);
    const recorded = results.filter((r) => r.status === 'recorded').map((r) => r.seq);
    expect(recorded.sort((a, b) => a - b)).toEqual(Array.from({ length: 41 }, (_, i) => i + 1));
    expect(results.filter((r) => r.status === 'duplicate')).toHaveLength(39);
    expect(results.filter((r) => r.status === 'refused')).toHaveLength(40);
    const sharedSeqs = new Set(results.filter((r) => r.id === shared.id).map((r) => r.seq));
    expect(sharedSeqs.size).toBe(1);
  });

  it('shows a person’s name when reading and only a seal in the log', async () => {
    const personId = randomUUID();
    const person = {
      id: randomUUID(),
      type: 'person.registered',
      version: 1,
      occurredAt: '2026-04-01T08:00:00-04:00',
      data: { personId, personal: { name: 'Ines Harrow', address: '12 Quillfen Lane' } },
    };
    await append([person], 'manager');
    const read = await service.get(
      `/api/v1/operations/${op.operationId}/records?about=${personId}`,
      op.tokens.inspector,
    );
    expect(read.json.records[0].data.personal).toEqual({ name: 'Ines Harrow', address: '12 Quillfen Lane' });
    const entries = await service.get(
      `/api/v1/operations/${op.operationId}/log/entries?from=1&to=2`,
      op.tokens.inspector,
    );
    expect(entries.text).not.toContain('Harrow');
    expect(entries.json.data.personal).toEqual({ sealed: expect.stringMatching(/^[A-Za-z0-9+/]{43}=$/) });
    // The salt is random, yet the same person sent again is the same content; another name is not.
    expect((await append([person], 'manager')).json.results[0].status).toBe('duplicate');
    const renamed = { ...person, data: { personId, personal: { name: 'Ines Harrow-Vale' } } };
    expect((await append([renamed], 'manager')).json.results[0].problem.code).toBe('id-reused');
  });
});

describe('a whole request that cannot be taken', () => {
  const post = (body: string | Uint8Array, headers?: Record<string, string>) =>
    service.call('POST', `/api/v1/operations/${op.operationId}/records`, op.tokens.recorder, body, headers);

  it.each([
    ['broken JSON', '{"records":[', 400],
    ['an empty body', '', 400],
    ['two values', '{} {}', 400],
    ['no object', '[]', 422],
    ['null', 'null', 422],
    ['no records', '{}', 422],
    ['records that are no list', '{"records":{}}', 422],
    ['a member nobody knows', '{"records":[],"more":1}', 422],
    ['a prototype instead of members', '{"__proto__":{"records":[]}}', 422],
    ['arrays nested 100,000 deep', `{"records":${'['.repeat(100_000)}${']'.repeat(100_000)}}`, 400],
    ['objects nested 21 deep', `{"records":[${'{"a":'.repeat(19)}1${'}'.repeat(19)}]}`, 400],
  ])('%s', async (_, body, status) => {
    const answer = await post(body);
    expect(answer.status).toBe(status);
    expect(answer.headers.get('content-type')).toMatch(/^application\/problem\+json/);
    expect(answer.json).toMatchObject({
      type: expect.any(String),
      title: expect.any(String),
      status,
      detail: expect.any(String),
    });
  });

  it('bytes that are not UTF-8', async () => {
    const answer = await post(Uint8Array.of(0x7b, 0x22, 0xff, 0x22, 0x3a, 0x31, 0x7d));
    expect(answer.status).toBe(400);
  });

  it('another media type, or a compressed body', async () => {
    expect((await post('{"records":[]}', { 'content-type': 'text/plain' })).status).toBe(415);
    expect((await post('{"records":[]}', { 'content-encoding': 'gzip' })).status).toBe(415);
  });

  it('more than 1 MiB, announced or not', async () => {
    const large = JSON.stringify({ records: [note('x'.repeat(1_100_000))] });
    expect((await post(large)).status).toBe(413);
    const stream = new ReadableStream({
      start(controller) {
        for (let i = 0; i < 20; i += 1) controller.enqueue(new Uint8Array(100_000).fill(0x20));
        controller.close();
      },
    });
    const init: RequestInit & { duplex: string } = {
      method: 'POST',
      body: stream,
      duplex: 'half',
      headers: { authorization: `Bearer ${op.tokens.recorder}`, 'content-type': 'application/json' },
    };
    const answer = await fetch(`${service.url}/api/v1/operations/${op.operationId}/records`, init);
    expect(answer.status).toBe(413);
    await answer.text();
  });

  it('more than 1,000 records; 1,000 are taken', async () => {
    const thousand = Array.from({ length: 1_000 }, (_, i) => ({
      ...note(''),
      data: { batchId: randomUUID(), note: String(i) },
    }));
    expect((await append([...thousand, note('one too many')])).status).toBe(422);
    const answer = await append(thousand);
    expect(answer.status).toBe(200);
    expect(answer.json.results.every((r: { status: string }) => r.status === 'recorded')).toBe(true);
  }, 30_000);

  it('no records at all is fine', async () => {
    const answer = await append([]);
    expect(answer.status).toBe(200);
    expect(answer.json).toEqual({ results: [], log: { size: 1, root: expect.any(String) } });
  });

  it.each(['\u0000', '\ud800'])(
    'a record with a character that text cannot hold is refused, not a fault',
    async (text) => {
      const { status, json } = await append([note(`a${text}b`), note('fine')]);
      expect(status).toBe(200);
      expect(json.results.map((r: { status: string }) => r.status)).toEqual(['refused', 'recorded']);
    },
  );
});
