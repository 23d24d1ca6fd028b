import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, beforeEach, describe, expect, it, jest } from '@jest/globals';
import { Attempts } from '../apps/api/src/access/index.ts';
import { note, TestService, type Answer, type Role, type TestOperation } from './support/service.ts';

const phrase = 'nettle harrow tuesday bucket';
const day = 86_400_000;
let now = Date.parse('2026-06-03T12:00:00Z');
let service: TestService;
let op: TestOperation;
let address = 0;
beforeAll(async () => {
  service = await TestService.start({ clock: { now: () => now } });
}, 60_000);
afterAll(() => service.close());
beforeEach(async () => {
  op = await service.operation();
});

const base = (): string => `/api/v1/operations/${op.operationId}`;
/** As from another address each time: the limits of an address are tried elsewhere. */
const call = (method: string, path: string, token?: string, body?: unknown): Promise<Answer> =>
  service.call(method, path, token, body, { 'x-forwarded-for': `198.51.100.${(address += 1)}` });
const manage = (method: string, path: string, body?: unknown): Promise<Answer> =>
  call(method, base() + path, op.tokens.manager, body);
const recorded = async (type: string): Promise<{ recordedBy: string; data: object }[]> =>
  (await service.get(`${base()}/records?type=${type}`, op.tokens.manager)).json.records;
const accept = (body: object, token?: string): Promise<Answer> =>
  call('POST', '/api/v1/invitations/accept', token, body);
const invite = async (role: Role): Promise<string> =>
  (await manage('POST', '/members', { name: 'Sefa Lindgarth', role })).json.invitation;

describe('an invitation', () => {
  it('makes a person of the one who accepts it, with a name and a password of their own, signed in', async () => {
    const invitation = await invite('reviewer');
    expect(await recorded('access.granted')).toEqual([]);
    const login = `sefa-${randomUUID()}`;
    const accepted = await accept({ invitation, login, password: phrase });
    expect([accepted.status, accepted.json]).toEqual([
      201,
      expect.objectContaining({ operationId: op.operationId, role: 'reviewer', kind: 'session' }),
    ]);
    const { accountId } = accepted.json.person;
    expect(await recorded('access.granted')).toEqual([
      expect.objectContaining({
        recordedBy: op.accounts.manager,
        data: { accessId: accountId, role: 'reviewer' },
      }),
    ]);
    const cookie = accepted.headers
      .getSetCookie()
      .map((each) => each.split(';')[0])
      .join('; ');
    expect((await service.get(`${base()}/records`, undefined, { cookie })).status).toBe(200);
    expect((await call('POST', '/api/v1/session', undefined, { login, password: phrase })).status).toBe(201);
  });

  it('brings somebody who is a person here already into one more operation', async () => {
    const other = await service.operation();
    const accepted = await accept({ invitation: await invite('inspector') }, other.tokens.recorder);
    expect(accepted.json).toEqual({ operationId: op.operationId, role: 'inspector' });
    const list = (await service.get('/api/v1/operations', other.tokens.recorder)).json.operations;
    const roles = new Map(list.map((own: { operationId: string; role: string }) => [own.operationId, own.role]));
    expect(roles).toEqual(
      new Map([
        [op.operationId, 'inspector'],
        [other.operationId, 'recorder'],
      ]),
    );
  });

  it('does not change what a member is: the last manager cannot step down by it', async () => {
    const invitation = await invite('recorder');
    expect((await accept({ invitation }, op.tokens.manager)).status).toBe(409);
    const { operations } = (await service.get('/api/v1/operations', op.tokens.manager)).json;
    expect(operations).toEqual([expect.objectContaining({ role: 'manager' })]);
    const answers = { login: `still-${randomUUID()}`, password: phrase };
    expect((await accept({ invitation, ...answers })).status).toBe(201);
  });

  it('brings somebody back who had left', async () => {
    await manage('DELETE', `/members/${op.accounts.recorder}`);
    expect((await accept({ invitation: await invite('reviewer') }, op.tokens.recorder)).status).toBe(201);
    expect((await service.get(`${base()}/records`, op.tokens.recorder)).status).toBe(200);
  });

  it('works once, even when two come at the same time', async () => {
    const invitation = await invite('recorder');
    const two = await Promise.all(
      ['a', 'b'].map((each) => accept({ invitation, login: `${each}-${randomUUID()}`, password: phrase })),
    );
    expect(two.map(({ status }) => status).sort()).toEqual([201, 404]);
    expect(await recorded('access.granted')).toHaveLength(1);
  });

  it('is not used up by a password that will not do', async () => {
    const invitation = await invite('recorder');
    const login = `tobin-${randomUUID()}`;
    expect((await accept({ invitation, login, password: 'short' })).status).toBe(422);
    expect((await accept({ invitation, login, password: phrase })).status).toBe(201);
  });

  it('runs out after a week, can be taken back, and is nothing from one who is no manager any more', async () => {
    const answers = { login: `late-${randomUUID()}`, password: phrase };
    const late = await invite('recorder');
    now += 7 * day;
    expect((await accept({ invitation: late, ...answers })).status).toBe(404);

    const taken = await invite('recorder');
    const [open] = (await manage('GET', '/invitations')).json.invitations;
    expect((await manage('DELETE', `/invitations/${open.invitationId}`)).status).toBe(204);
    expect((await accept({ invitation: taken, ...answers })).status).toBe(404);

    const stale = await invite('manager');
    await manage('PUT', `/members/${op.accounts.reviewer}`, { role: 'manager' });
    const demoted = { role: 'recorder' };
    await call('PUT', `${base()}/members/${op.accounts.manager}`, op.tokens.reviewer, demoted);
    expect((await accept({ invitation: stale, ...answers })).status).toBe(404);
  });
});

describe('members', () => {
  it('a changed role counts at once and is in the log', async () => {
    expect((await manage('PUT', `/members/${op.accounts.recorder}`, { role: 'inspector' })).status).toBe(204);
    expect((await service.append(op.operationId, op.tokens.recorder, [note('x')])).status).toBe(403);
    expect(await recorded('access.granted')).toEqual([
      expect.objectContaining({
        recordedBy: op.accounts.manager,
        data: { accessId: op.accounts.recorder, role: 'inspector' },
      }),
    ]);
  });

  it('one who leaves sees the operation no more; what was recorded keeps its name', async () => {
    await service.append(op.operationId, op.tokens.recorder, [note('mine')]);
    expect((await manage('DELETE', `/members/${op.accounts.recorder}?reason=left`)).status).toBe(204);
    expect((await service.get(`${base()}/records`, op.tokens.recorder)).status).toBe(404);
    expect((await service.get('/api/v1/operations', op.tokens.recorder)).json.operations).toEqual([]);
    expect(await recorded('access.withdrawn')).toEqual([
      expect.objectContaining({ data: { accessId: op.accounts.recorder, reason: 'left' } }),
    ]);
    const { members } = (await service.get(`${base()}/members`, op.tokens.inspector)).json;
    const [gone] = members.filter((each: { accountId: string }) => each.accountId === op.accounts.recorder);
    expect(gone).toMatchObject({ name: 'Ruth', role: 'recorder', until: new Date(now).toISOString() });
  });

  it('the last manager neither leaves nor steps down', async () => {
    expect((await manage('DELETE', `/members/${op.accounts.manager}`)).status).toBe(409);
    expect((await manage('PUT', `/members/${op.accounts.manager}`, { role: 'recorder' })).status).toBe(409);
    await manage('PUT', `/members/${op.accounts.reviewer}`, { role: 'manager' });
    // Two managers who withdraw each other at the same moment: one of them stays.
    const both = await Promise.all([
      call('DELETE', `${base()}/members/${op.accounts.reviewer}`, op.tokens.manager),
      call('DELETE', `${base()}/members/${op.accounts.manager}`, op.tokens.reviewer),
    ]);
    expect(both.filter(({ status }) => status === 204)).toHaveLength(1);
  });

  it('people of another operation are nobody here', async () => {
    const other = await service.operation();
    expect((await manage('PUT', `/members/${other.accounts.recorder}`, { role: 'manager' })).status).toBe(404);
    expect((await manage('DELETE', `/members/${other.accounts.recorder}`)).status).toBe(404);
    const { text } = await service.get(`${base()}/members`, op.tokens.manager);
    expect(text).not.toContain(other.accounts.recorder);
  });
});

describe('many at once', () => {
  it('grants, links, signatures and appends of one operation stand in one line, and none is lost', async () => {
    const { token } = (await manage('POST', '/access-links', {})).json;
    const login = `manager-${randomUUID()}`;
    await call('PUT', '/api/v1/account/password', op.tokens.manager, { login, password: phrase });
    const batchId = randomUUID();
    const opened = {
      ...{ id: randomUUID(), type: 'batch.opened', version: 1, occurredAt: '2026-06-03T06:10:00-05:00' },
      data: { batchId, code: 'T-14', kind: 'aeratedTea', vesselId: randomUUID() },
    };
    await service.append(op.operationId, op.tokens.recorder, [opened]);
    const before = (await service.get(`${base()}/records?limit=1`, op.tokens.manager)).json.asOfSeq;
    const signature = { meaning: 'reviewed', statement: 'Read.', password: phrase };
    const rounds = Array.from({ length: 12 }, () => [
      service.append(op.operationId, op.tokens.recorder, [note('one'), note('two')]),
      manage('POST', '/phones', { label: 'phone' }),
      manage('POST', '/access-links', {}),
      manage('PUT', `/members/${op.accounts.inspector}`, { role: 'inspector' }),
      manage('POST', `/batches/${batchId}/reviews`, signature),
      service.get(`${base()}/batches/${batchId}`, op.tokens.inspector),
      service.get(`${base()}/findings`, token),
    ]);
    const answers = await Promise.all(rounds.flat());
    expect(answers.map(({ status }) => status).filter((status) => status >= 400)).toEqual([]);
    // Two notes, a phone, a link, a signature in each round; the link's use once; the unchanged role not at all.
    const after = (await service.get(`${base()}/records?limit=1`, op.tokens.manager)).json.asOfSeq;
    expect(after - before).toBe(12 * 5 + 1);
    const { text } = await service.get(`${base()}/log/entries`, op.tokens.manager);
    expect(
      text
        .trim()
        .split('\n')
        .map((line) => JSON.parse(line).seq),
    ).toEqual(Array.from({ length: after + 1 }, (_, seq) => seq));
  }, 60_000);
});

describe('a phone that several people share', () => {
  const phone = async () => (await manage('POST', '/phones', { label: 'phone at the tank' })).json;
  const person = async (name: string, pin: string, role: Role = 'recorder'): Promise<string> => {
    const made = await manage('POST', '/members', { name, role, pin });
    expect([made.status, made.json]).toEqual([201, { accountId: expect.any(String) }]);
    return made.json.accountId;
  };
  const signIn = (token: string, accountId: string, pin: string): Promise<Answer> =>
    call('POST', '/api/v1/session/pin', token, { accountId, pin });

  it('each signs in with a PIN, and each record says whose hand it was', async () => {
    const { token, accountId: phoneId } = await phone();
    const [ines, tobin] = [await person('Ines Harrow', '4831'), await person('Tobin Quay', '7302')];
    const { people } = (await call('GET', '/api/v1/session/people', token)).json;
    expect(people).toEqual([
      { accountId: ines, name: 'Ines Harrow' },
      { accountId: tobin, name: 'Tobin Quay' },
    ]);
    const first = (await signIn(token, ines, '4831')).json;
    const second = (await signIn(token, tobin, '7302')).json;
    await service.append(op.operationId, first.token, [note('by Ines')]);
    await service.append(op.operationId, second.token, [note('by Tobin')]);
    // What waited on the phone is delivered by the phone itself.
    await service.append(op.operationId, token, [note('by the phone')]);
    expect((await recorded('batch.checked')).map(({ recordedBy }) => recordedBy)).toEqual([ines, tobin, phoneId]);
    expect((await recorded('access.granted')).map(({ data }) => data)).toEqual([
      { accessId: phoneId, role: 'recorder', purpose: 'a shared phone' },
      { accessId: ines, role: 'recorder', purpose: 'a person with a PIN on shared phones' },
      { accessId: tobin, role: 'recorder', purpose: 'a person with a PIN on shared phones' },
    ]);
  });

  it('a PIN is worth nothing elsewhere, nor on another operation’s phone', async () => {
    const ines = await person('Ines Harrow', '4831');
    expect((await signIn(op.tokens.recorder, ines, '4831')).status).toBe(403);
    const home = op;
    op = await service.operation();
    const { token } = await phone();
    expect((await signIn(token, ines, '4831')).status).toBe(403);
    op = home;
  });

  it('after five wrong PINs there is a wait; a manager who sets a new one ends it', async () => {
    const { token } = await phone();
    const ines = await person('Ines Harrow', '4831');
    for (let i = 0; i < 5; i += 1) expect((await signIn(token, ines, '9999')).status).toBe(403);
    expect((await signIn(token, ines, '4831')).status).toBe(429);
    expect((await manage('PUT', `/members/${ines}/pin`, { pin: '6205' })).status).toBe(204);
    expect((await signIn(token, ines, '4831')).status).toBe(403);
    expect((await signIn(token, ines, '6205')).status).toBe(201);
  });

  it('a PIN that a manager takes away opens nothing more, and ends what was begun with it', async () => {
    const { token } = await phone();
    const ines = await person('Ines Harrow', '4831');
    const session = (await signIn(token, ines, '4831')).json;
    expect((await manage('DELETE', `/members/${ines}/pin`)).status).toBe(204);
    expect((await signIn(token, ines, '4831')).status).toBe(403);
    expect((await service.get(`${base()}/records`, session.token)).status).toBe(401);
    expect((await call('GET', '/api/v1/session/people', token)).json).toEqual({ people: [] });
    expect((await manage('DELETE', `/members/${randomUUID()}/pin`)).status).toBe(404);
  });

  it('a PIN that is changed ends what was begun with the old one', async () => {
    const { token } = await phone();
    const ines = await person('Ines Harrow', '4831');
    const session = (await signIn(token, ines, '4831')).json;
    expect((await manage('PUT', `/members/${ines}/pin`, { pin: '6205' })).status).toBe(204);
    expect((await service.get(`${base()}/records`, session.token)).status).toBe(401);
    expect((await signIn(token, ines, '6205')).status).toBe(201);
  });

  it.each(['PUT', 'DELETE'])('a PIN that goes by %s while somebody signs in with it opens nothing', async (method) => {
    const { token } = await phone();
    const ines = await person('Ines Harrow', '4831');
    const attempts = service.service.context.get(Attempts);
    const attempt = attempts.attempt.bind(attempts);
    const spy = jest.spyOn(attempts, 'attempt').mockImplementationOnce(async (...given) => {
      const found: unknown = await attempt(...given);
      const gone = await manage(method, `/members/${ines}/pin`, method === 'PUT' ? { pin: '6205' } : undefined);
      expect(gone.status).toBe(204);
      return found as never; // eslint-disable-line @typescript-eslint/consistent-type-assertions -- the method is generic
    });
    const late = await signIn(token, ines, '4831');
    spy.mockRestore();
    expect(late.status).toBe(403);
  });

  it.each(['123', '1234', '9876', '0000', '123456789', 'four'])('%s will not do as a PIN', async (pin) => {
    const answer = await manage('POST', '/members', { name: 'Ines Harrow', role: 'recorder', pin });
    expect([answer.status, answer.json.errors[0].pointer]).toEqual([422, '/pin']);
    expect(await recorded('access.granted')).toEqual([]);
  });

  it('whoever walks away is signed out after half an hour', async () => {
    const { token } = await phone();
    const ines = await person('Ines Harrow', '4831');
    const session = (await signIn(token, ines, '4831')).json;
    now += 29 * 60_000;
    expect((await service.get(`${base()}/records`, session.token)).status).toBe(200);
    now += 31 * 60_000;
    expect((await service.get(`${base()}/records`, session.token)).status).toBe(401);
  });

  it('a lost phone is withdrawn with everybody’s sessions on it', async () => {
    const { token, tokenId, accountId } = await phone();
    const ines = await person('Ines Harrow', '4831');
    const session = (await signIn(token, ines, '4831')).json;
    expect((await manage('DELETE', `/phones/${tokenId}?reason=lost`)).status).toBe(204);
    expect((await service.get(`${base()}/records`, token)).status).toBe(401);
    expect((await service.get(`${base()}/records`, session.token)).status).toBe(401);
    expect(await recorded('access.withdrawn')).toEqual([
      expect.objectContaining({ data: { accessId: accountId, reason: 'lost' } }),
    ]);
  });

  it('a reviewer who is signed in there signs with the PIN; a manager’s rights are not on a shared phone', async () => {
    const { token } = await phone();
    const sefa = await person('Sefa Lindgarth', '4831', 'reviewer');
    const session = (await signIn(token, sefa, '4831')).json.token;
    const batchId = randomUUID();
    await service.append(op.operationId, session, [
      {
        ...{ id: randomUUID(), type: 'batch.opened', version: 1, occurredAt: '2026-06-03T06:10:00-05:00' },
        data: { batchId, code: 'T-14', kind: 'aeratedTea', vesselId: randomUUID() },
      },
    ]);
    const sign = (pin: string): Promise<Answer> =>
      call('POST', `${base()}/batches/${batchId}/reviews`, session, { meaning: 'reviewed', statement: 'Read.', pin });
    expect((await sign('1357')).status).toBe(403);
    expect((await sign('4831')).json).toMatchObject({ proof: 'pin' });
    expect((await manage('POST', '/members', { name: 'x', role: 'manager', pin: '4831' })).status).toBe(422);
    await manage('PUT', `/members/${op.accounts.manager}/pin`, { pin: '2468' });
    const there = (await signIn(token, op.accounts.manager, '2468')).json.token;
    expect((await service.get(`${base()}/access-links`, there)).status).toBe(403);
    expect((await call('PUT', '/api/v1/account/password', there, { login: 'abc', password: phrase })).status).toBe(403);
  });
});
