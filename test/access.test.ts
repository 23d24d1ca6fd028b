import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { note, TestService, type Role, type TestOperation } from './support/service.ts';

let service: TestService;
let op: TestOperation;
let other: TestOperation;
beforeAll(async () => {
  service = await TestService.start();
  [op, other] = [await service.operation(), await service.operation()];
}, 60_000);
afterAll(() => service.close());

const base = (operationId: string): string => `/api/v1/operations/${operationId}`;

describe('who may come in', () => {
  it.each([
    ['no token', undefined],
    ['a token nobody has', 'fmt_nobody'],
    ['no token at all behind Bearer', ''],
  ])('%s: 401, whatever the address and the body', async (_, token) => {
    for (const [method, path, body] of [
      ['GET', '/api/v1/operations', undefined],
      ['POST', '/api/v1/operations', '{'],
      ['GET', `${base(op.operationId)}/records`, undefined],
      ['POST', `${base(op.operationId)}/records`, '{'],
      ['POST', `${base(randomUUID())}/records`, '{'],
      ['GET', `${base('not-a-uuid')}/records`, undefined],
      ['GET', `${base(op.operationId)}/log/checkpoint?nonsense=1`, undefined],
    ] as const) {
      const answer = await service.call(method, path, token, body);
      expect([path, answer.status]).toEqual([path, 401]);
      expect(answer.headers.get('www-authenticate')).toMatch(/^Bearer/);
      expect(answer.headers.get('content-type')).toMatch(/^application\/problem\+json/);
    }
  });

  it('many refused tokens are answered alike: 401 is not rate limited', async () => {
    for (let i = 0; i < 400; i += 1) expect((await service.get('/api/v1/operations', `wrong${i}`)).status).toBe(401);
  });

  it('an operation that is not yours and one that does not exist get the same answer', async () => {
    const answers = await Promise.all([
      service.call('POST', `${base(other.operationId)}/records`, op.tokens.manager, '{'),
      service.call('POST', `${base(randomUUID())}/records`, op.tokens.manager, '{'),
      service.call('POST', `${base('not-a-uuid')}/records`, op.tokens.manager, '{'),
      service.call('POST', `${base('__proto__')}/records`, op.tokens.manager, '{'),
      service.get(`${base(other.operationId)}/records`, op.tokens.manager),
      service.get(`${base(other.operationId)}/log/checkpoint`, op.tokens.manager),
    ]);
    for (const answer of answers) {
      expect(answer.status).toBe(404);
      expect(answer.json).toEqual(answers[0]?.json);
    }
  });

  it('one token works in every operation of its person, in each with the role there', async () => {
    await service.service.grant({ operationId: other.operationId, accountId: op.accounts.recorder, role: 'inspector' });
    const list = await service.get('/api/v1/operations', op.tokens.recorder);
    expect(list.json.operations).toEqual([
      { operationId: op.operationId, name: 'Quillfen Growers', timeZone: 'America/New_York', role: 'recorder' },
      { operationId: other.operationId, name: 'Quillfen Growers', timeZone: 'America/New_York', role: 'inspector' },
    ]);
    expect((await service.append(op.operationId, op.tokens.recorder, [note('here')])).status).toBe(200);
    expect((await service.append(other.operationId, op.tokens.recorder, [note('there')])).status).toBe(403);
  });

  it('a token that ran out or was withdrawn opens nothing', async () => {
    const { accountId } = await service.person('Short');
    const { token } = await service.service.issueToken({ accountId, label: 'gone', lifeDays: -1 });
    expect((await service.get('/api/v1/operations', token)).status).toBe(401);
  });

  it('anybody signed in may make an operation, and is its manager', async () => {
    const { token } = await service.person('Nadia');
    const made = await service.call('POST', '/api/v1/operations', token, {
      name: 'Ferrant Orchard',
      timeZone: 'Europe/Lisbon',
      elevation: { value: 120, unit: 'm' },
      regimes: ['us-organic'],
    });
    expect(made.status).toBe(201);
    const list = await service.get('/api/v1/operations', token);
    expect(list.json.operations).toEqual([
      { operationId: made.json.operationId, name: 'Ferrant Orchard', timeZone: 'Europe/Lisbon', role: 'manager' },
    ]);
  });

  it.each([
    ['no name', { timeZone: 'UTC' }],
    ['a zone that does not exist', { name: 'x', timeZone: 'Mars/Olympus' }],
    ['an elevation that is no length', { name: 'x', timeZone: 'UTC', elevation: { value: 1, unit: 'mg/L' } }],
    ['an unknown member', { name: 'x', timeZone: 'UTC', colour: 'green' }],
  ])('an operation with %s is not made', async (_, body) => {
    const answer = await service.call('POST', '/api/v1/operations', op.tokens.manager, body);
    expect(answer.status).toBe(422);
    expect(answer.json.errors.length).toBeGreaterThan(0);
  });
});

describe('who may record what', () => {
  const about = { batchId: '01976f00-0000-7000-8000-0000000000b1' };
  const at = '2026-06-03T06:10:00-05:00';
  const record = (type: string, data: object) => ({ id: randomUUID(), type, version: 1, occurredAt: at, data });
  const outcome = async (role: Role, what: object): Promise<string> => {
    const { json } = await service.append(op.operationId, op.tokens[role], [what]);
    return json.results[0].status === 'refused' ? json.results[0].problem.code : json.results[0].status;
  };

  it('an inspector may not append, not even nothing, and is told before the body is looked at', async () => {
    expect((await service.append(op.operationId, op.tokens.inspector, [])).status).toBe(403);
    expect((await service.append(op.operationId, op.tokens.inspector, [note('x')])).status).toBe(403);
    expect((await service.call('POST', `${base(op.operationId)}/records`, op.tokens.inspector, '{')).status).toBe(403);
  });

  it.each([
    ['recorder', 'not-permitted'],
    ['reviewer', 'recorded'],
    ['manager', 'recorded'],
  ] as const)('a %s who signs a batch: %s', async (role, expected) => {
    const review = record('batch.reviewed', {
      ...about,
      throughSeq: 0,
      meaning: 'reviewed',
      statement: 'I have looked.',
    });
    expect(await outcome(role, review)).toBe(expected);
  });

  it.each([
    ['recorder', 'not-permitted'],
    ['reviewer', 'not-permitted'],
    ['manager', 'recorded'],
  ] as const)('a %s who adopts a rule book: %s', async (role, expected) => {
    const adoption = record('ruleBook.adopted', {
      effectiveFrom: at,
      entries: [{ ruleId: 'hold-maximum', parameters: { limitHours: 6 } }],
      reason: 'agreed at the spring meeting',
      approvedBy: randomUUID(),
    });
    expect(await outcome(role, adoption)).toBe(expected);
  });

  const strike = (recordId: string) =>
    record('record.struck', { recordId, type: 'batch.checked', reason: 'wrong tank' });

  it('a recorder corrects what it recorded itself', async () => {
    const own = note('own');
    await service.append(op.operationId, op.tokens.recorder, [own]);
    expect(await outcome('recorder', strike(own.id))).toBe('recorded');
  });

  it('a recorder does not correct what somebody else recorded; reviewers and managers do', async () => {
    const others = note('others');
    await service.append(op.operationId, op.tokens.reviewer, [others]);
    expect(await outcome('recorder', strike(others.id))).toBe('not-permitted');
    expect(await outcome('reviewer', strike(others.id))).toBe('recorded');
    expect(await outcome('manager', strike(others.id))).toBe('recorded');
  });

  it('a recorder may correct a record that has not arrived yet', async () => {
    expect(await outcome('recorder', strike(randomUUID()))).toBe('recorded');
  });

  it('a recorder’s correction in the same request as its own record is taken', async () => {
    const own = note('own');
    const { json } = await service.append(op.operationId, op.tokens.recorder, [own, strike(own.id)]);
    expect(json.results.map((r: { status: string }) => r.status)).toEqual(['recorded', 'recorded']);
  });

  it.each(['ruleBook.adopted', 'batch.reviewed', 'access.granted'])('nobody amends or strikes %s', async (type) => {
    const amendment = record('record.struck', { recordId: randomUUID(), type, reason: 'changed my mind' });
    expect(await outcome('manager', amendment)).toBe('not-permitted');
  });

  it('a person is not erased before five years have passed since the last record by or about them', async () => {
    const personId = randomUUID();
    await service.append(op.operationId, op.tokens.manager, [
      record('person.registered', { personId, personal: { name: 'Tomas Ferrant' } }),
    ]);
    const erase = record('person.erased', { personId, reason: 'left' });
    const { json } = await service.append(op.operationId, op.tokens.manager, [erase]);
    expect(json.results[0].problem.code).toBe('retention-not-over');
    expect(await outcome('recorder', erase)).toBe('not-permitted');
  });
});

describe('erasing a person', () => {
  // 7 CFR 205.103(b)(3): records are kept for not less than five years beyond their creation.
  const day = 86_400_000;
  let now = Date.parse('2021-03-01T12:00:00Z');
  let later: TestService;
  beforeAll(async () => {
    await service.close();
    later = await TestService.start({ clock: { now: () => now } });
  }, 60_000);
  afterAll(() => later.close());

  it('is possible once five years have passed, takes the name away and leaves the log as it was', async () => {
    const farm = await later.operation();
    const personId = randomUUID();
    const at = '2021-03-01T08:00:00Z';
    const person = {
      id: randomUUID(),
      type: 'person.registered',
      version: 1,
      occurredAt: at,
      data: { personId, personal: { name: 'Tomas Ferrant' } },
    };
    await later.append(farm.operationId, farm.tokens.manager, [person]);
    const before = await later.get(`${base(farm.operationId)}/log/entries`, farm.tokens.inspector);
    const erase = (id = randomUUID()) =>
      later.append(farm.operationId, farm.tokens.manager, [
        {
          id,
          type: 'person.erased',
          version: 1,
          occurredAt: new Date(now).toISOString(),
          data: { personId, reason: 'left' },
        },
      ]);

    now = Date.parse('2026-03-01T12:00:00Z') - day;
    expect((await erase()).json.results[0].problem.detail).toContain('2026-03-01');
    now = Date.parse('2026-03-01T12:00:01Z');
    expect((await erase()).json.results[0].status).toBe('recorded');

    const records = await later.get(`${base(farm.operationId)}/records`, farm.tokens.manager);
    expect(records.text).not.toContain('Tomas');
    const after = await later.get(`${base(farm.operationId)}/log/entries?from=0&to=2`, farm.tokens.inspector);
    expect(after.text).toBe(before.text);
    // The phone that still has it in its queue sends it again: known, not a new record.
    const again = await later.append(farm.operationId, farm.tokens.manager, [person]);
    expect(again.json.results[0]).toMatchObject({ status: 'duplicate', seq: 1 });
  });
});
