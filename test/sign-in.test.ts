import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it, jest } from '@jest/globals';
import { Attempts } from '../apps/api/src/access/index.ts';
import { note, TestService, type TestOperation } from './support/service.ts';

const phrase = 'nettle harrow tuesday bucket';
const other = 'quiet lantern over the hedge row';
const hour = 3_600_000;
const day = 24 * hour;

let now = Date.parse('2026-06-03T12:00:00Z');
let service: TestService;
let op: TestOperation;
let address = 0;
beforeAll(async () => {
  service = await TestService.start({ clock: { now: () => now } });
  op = await service.operation();
}, 60_000);
afterAll(() => service.close());

/** As from another address each time, so that the limit on an address does not stand in the way of what is tested. */
const from = (): Record<string, string> => ({ 'x-forwarded-for': `192.0.2.${(address += 1)}` });
const named = (): string => `person-${randomUUID()}`;

/** A person of the operation with a sign-in name and a password. */
async function withPassword(password = phrase): Promise<{ accountId: string; token: string; login: string }> {
  const person = await service.person('Sefa Lindgarth');
  await service.service.grant({ operationId: op.operationId, accountId: person.accountId, role: 'reviewer' });
  const login = named();
  const set = await service.call('PUT', '/api/v1/account/password', person.token, { login, password }, from());
  expect([set.status, set.text]).toEqual([204, '']);
  return { ...person, login };
}

interface Session {
  readonly cookie: string;
  readonly csrf: string;
}
async function signIn(login: string, password = phrase): Promise<Session> {
  const answer = await service.call('POST', '/api/v1/session', undefined, { login, password }, from());
  expect([answer.status, answer.json]).toEqual([201, expect.objectContaining({ kind: 'session' })]);
  const cookie = answer.headers
    .getSetCookie()
    .map((each) => each.split(';')[0])
    .join('; ');
  return { cookie, csrf: answer.json.csrfToken };
}
const as = (session: Session, method: string, path: string, body?: unknown, headers: Record<string, string> = {}) =>
  service.call(method, path, undefined, body, { cookie: session.cookie, ...headers });

describe('a password', () => {
  it('opens a session in a cookie that no script reads and no other site sends, and stands in no answer', async () => {
    const { login } = await withPassword();
    const answer = await service.call('POST', '/api/v1/session', undefined, { login, password: phrase }, from());
    const [session = ''] = answer.headers.getSetCookie();
    expect(session).toMatch(/^furrowmark_session=fms_[\w-]{43}; /);
    for (const attribute of ['HttpOnly', 'SameSite=Strict', 'Path=/']) expect(session).toContain(attribute);
    expect(session).not.toContain('Secure');
    const secret = session.split(/[=;]/)[1] ?? '';
    expect(answer.text).not.toContain(secret);
    expect(answer.text).not.toContain(phrase);
  });

  it('behind a proxy that speaks TLS the cookie is sent over TLS only', async () => {
    const { login } = await withPassword();
    const body = { login, password: phrase };
    const answer = await service.call('POST', '/api/v1/session', undefined, body, {
      ...from(),
      'x-forwarded-proto': 'https',
    });
    for (const cookie of answer.headers.getSetCookie()) expect(cookie).toContain('Secure');
  });

  it('the session does what the person may do, in all of the person’s operations', async () => {
    const { login, accountId } = await withPassword();
    const session = await signIn(login.toUpperCase());
    const me = await as(session, 'GET', '/api/v1/session');
    expect(me.json).toMatchObject({
      person: { accountId, name: 'Sefa Lindgarth' },
      kind: 'session',
      operations: [{ operationId: op.operationId, role: 'reviewer' }],
    });
    expect((await as(session, 'GET', `/api/v1/operations/${op.operationId}/records`)).status).toBe(200);
  });

  it('wrong ones and unknown names are answered alike', async () => {
    const { login } = await withPassword();
    const ask = (body: object) => service.call('POST', '/api/v1/session', undefined, body, from());
    const wrong = await ask({ login, password: other });
    const unknown = await ask({ login: named(), password: other });
    expect(wrong.status).toBe(401);
    expect(unknown.status).toBe(401);
    expect(wrong.json).toEqual(unknown.json);
    expect(wrong.headers.getSetCookie()).toEqual([]);
  });

  it('composed letters and letters with a combining mark are the same password (NIST SP 800-63B: normalise)', async () => {
    const { login } = await withPassword('le pré vert derrière la grange');
    await signIn(login, 'le pre\u0301 vert derrie\u0300re la grange');
  });

  it.each([
    ['shorter than fifteen characters', 'tall green corn'.slice(0, 14)],
    ['much used', 'passwordpassword'],
    ['one letter many times', 'aaaaaaaaaaaaaaaaaaaaaaaa'],
    ['keys in a row', 'qwertyuiopasdfghjkl'],
    ['no end to it', 'x7'.repeat(150)],
  ])('will not do when it is %s', async (_, password) => {
    const { token } = await service.person('Weak');
    const body = { login: named(), password };
    const answer = await service.call('PUT', '/api/v1/account/password', token, body, from());
    expect([answer.status, answer.json.errors[0].pointer]).toEqual([422, '/password']);
  });

  it('is kept as argon2id with 19 MiB, two passes, one lane (OWASP Password Storage Cheat Sheet, from memory)', async () => {
    const { accountId } = await withPassword();
    const hash = await service.service.database.dataSource.transaction(async (manager) => {
      await manager.query(`SELECT set_config('app.account_id', $1, true)`, [accountId]);
      const rows = await manager.query('SELECT password_hash FROM credential');
      expect(rows).toHaveLength(1);
      return rows[0].password_hash;
    });
    expect(hash).toMatch(/^\$argon2id\$v=19\$m=19456,t=2,p=1\$/);
  });

  it('a sign-in name that somebody has is refused to the next', async () => {
    const { login } = await withPassword();
    const { token } = await service.person('Second');
    const body = { login: ` ${login.toUpperCase()} `, password: phrase };
    const answer = await service.call('PUT', '/api/v1/account/password', token, body, from());
    expect([answer.status, answer.json.errors]).toEqual([409, [{ pointer: '/login', detail: 'is taken' }]]);
  });
});

describe('guessing', () => {
  it('after five wrong passwords there is a wait, for the right one too; it doubles; after it the right one opens', async () => {
    const { login } = await withPassword();
    const ask = (password: string) => service.call('POST', '/api/v1/session', undefined, { login, password }, from());
    for (let i = 0; i < 5; i += 1) expect((await ask(other)).status).toBe(401);
    const locked = await ask(phrase);
    expect([locked.status, locked.headers.get('retry-after')]).toEqual([429, '60']);
    now += 61_000;
    expect((await ask(other)).status).toBe(401);
    expect((await ask(phrase)).headers.get('retry-after')).toBe('120');
    now += 121_000;
    expect((await ask(phrase)).status).toBe(201);
    // Forgotten: the next five are free again.
    expect((await ask(other)).status).toBe(401);
    expect((await ask(phrase)).status).toBe(201);
  });

  it('many at once get no more tries than one after the other', async () => {
    const { login } = await withPassword();
    const answers = await Promise.all(
      Array.from({ length: 20 }, () =>
        service.call('POST', '/api/v1/session', undefined, { login, password: other }, from()),
      ),
    );
    expect(answers.filter(({ status }) => status === 401)).toHaveLength(5);
    expect(answers.filter(({ status }) => status === 429)).toHaveLength(15);
  });

  it('many right ones at once are not taken for guesses', async () => {
    const { login } = await withPassword();
    const answers = await Promise.all(
      Array.from({ length: 12 }, () =>
        service.call('POST', '/api/v1/session', undefined, { login, password: phrase }, from()),
      ),
    );
    expect(answers.map(({ status }) => status)).toEqual(answers.map(() => 201));
  });

  it('a name that nobody has is made to wait just the same', async () => {
    const login = named();
    const ask = () => service.call('POST', '/api/v1/session', undefined, { login, password: other }, from());
    for (let i = 0; i < 5; i += 1) expect((await ask()).status).toBe(401);
    expect((await ask()).status).toBe(429);
  });

  it('one address gets thirty sign-ins a minute, whatever the names', async () => {
    const flooding = from();
    const statuses = [];
    for (let i = 0; i < 31; i += 1) {
      const body = { login: 'x', password: '' };
      statuses.push((await service.call('POST', '/api/v1/session', undefined, body, flooding)).status);
    }
    expect(statuses.slice(0, 30)).toEqual(Array.from({ length: 30 }, () => 422));
    expect(statuses[30]).toBe(429);
    const limited = await service.call('POST', '/api/v1/session', undefined, { login: 'x', password: '' }, flooding);
    expect(limited.headers.get('content-type')).toContain('application/problem+json');
    expect(Number(limited.headers.get('retry-after'))).toBeGreaterThan(0);
    // Members' appends are not held back.
    expect((await service.append(op.operationId, op.tokens.recorder, [note('still here')])).status).toBe(200);
  });
});

describe('a session', () => {
  it('that writes must prove that its own page made the request', async () => {
    const { login } = await withPassword();
    const session = await signIn(login);
    const path = `/api/v1/operations/${op.operationId}/records`;
    const body = { records: [note('forged?')] };
    expect((await as(session, 'POST', path, body)).status).toBe(403);
    expect((await as(session, 'POST', path, body, { 'x-csrf-token': 'x' })).status).toBe(403);
    const stranger = await signIn((await withPassword()).login);
    expect((await as(session, 'POST', path, body, { 'x-csrf-token': stranger.csrf })).status).toBe(403);
    // Another session's cookie and token together do not fit this session either.
    const mixed = `${session.cookie.split('; ')[0] ?? ''}; ${stranger.cookie.split('; ')[1] ?? ''}`;
    const forged = { cookie: mixed, 'x-csrf-token': stranger.csrf };
    expect((await service.call('POST', path, undefined, body, forged)).status).toBe(403);
    const own = await as(session, 'POST', path, body, { 'x-csrf-token': session.csrf });
    expect(own.json.results[0].status).toBe('recorded');
    const again = (await as(session, 'GET', '/api/v1/session')).json.csrfToken;
    expect((await as(session, 'POST', path, body, { 'x-csrf-token': again })).status).toBe(200);
  });

  it('an unknown session is 401 before anything is said about forging', async () => {
    const headers = { cookie: 'furrowmark_session=fms_nobody' };
    const path = `/api/v1/operations/${op.operationId}/records`;
    expect((await service.call('POST', path, undefined, { records: [] }, headers)).status).toBe(401);
  });

  it('ends by signing out', async () => {
    const session = await signIn((await withPassword()).login);
    const out = await as(session, 'DELETE', '/api/v1/session', undefined, { 'x-csrf-token': session.csrf });
    expect(out.status).toBe(204);
    expect(out.headers.getSetCookie().join()).toMatch(/furrowmark_session=;.*1970/);
    expect((await as(session, 'GET', '/api/v1/session')).status).toBe(401);
  });

  it('ends when it was not used for twelve hours, and after seven days in any case', async () => {
    const { login } = await withPassword();
    const [idle, busy] = [await signIn(login), await signIn(login)];
    const began = now;
    now += 11.9 * hour;
    expect((await as(idle, 'GET', '/api/v1/session')).status).toBe(200);
    const lastUse = now;
    for (; now < began + 6.9 * day; now += 11.9 * hour) {
      expect((await as(busy, 'GET', '/api/v1/session')).status).toBe(200);
      if (now > lastUse + 12 * hour) expect((await as(idle, 'GET', '/api/v1/session')).status).toBe(401);
    }
    now = began + 7 * day;
    expect((await as(busy, 'GET', '/api/v1/session')).status).toBe(401);
  });

  it('changing the password needs the present one, ends the other sessions and leaves this one', async () => {
    const { login } = await withPassword();
    const [mine, elsewhere] = [await signIn(login), await signIn(login)];
    const change = (body: object) =>
      as(mine, 'PUT', '/api/v1/account/password', body, { 'x-csrf-token': mine.csrf, ...from() });
    expect((await change({ password: other })).status).toBe(403);
    expect((await change({ current: 'not it', password: other })).status).toBe(403);
    expect((await as(elsewhere, 'GET', '/api/v1/session')).status).toBe(200);
    expect((await change({ current: phrase, password: other })).status).toBe(204);
    expect((await as(elsewhere, 'GET', '/api/v1/session')).status).toBe(401);
    expect((await as(mine, 'GET', '/api/v1/session')).status).toBe(200);
    const old = await service.call('POST', '/api/v1/session', undefined, { login, password: phrase }, from());
    expect(old.status).toBe(401);
    await signIn(login, other);
  });
});

describe('a password that is changed while somebody signs in with the old one', () => {
  it('leaves no session of the old one', async () => {
    const { token, login } = await withPassword();
    const attempts = service.service.context.get(Attempts);
    const attempt = attempts.attempt.bind(attempts);
    // Between looking at the old password and opening the session.
    const spy = jest.spyOn(attempts, 'attempt').mockImplementationOnce(async (...given) => {
      const found: unknown = await attempt(...given);
      const change = { current: phrase, password: other };
      const changed = await service.call('PUT', '/api/v1/account/password', token, change, from());
      expect(changed.status).toBe(204);
      return found as never; // eslint-disable-line @typescript-eslint/consistent-type-assertions -- the method is generic
    });
    const late = await service.call('POST', '/api/v1/session', undefined, { login, password: phrase }, from());
    spy.mockRestore();
    expect([late.status, late.headers.getSetCookie()]).toEqual([401, []]);
    await signIn(login, other);
  });
});

describe('phones and programs', () => {
  it('a phone stays signed in for ninety days from its last use, and no longer', async () => {
    const { token } = await service.person('Tobin Quay');
    const made = await service.call('POST', '/api/v1/account/devices', token, { label: 'my phone' });
    expect(made.status).toBe(201);
    const phone = made.json.token;
    for (let i = 0; i < 3; i += 1) {
      now += 89 * day;
      expect((await service.get('/api/v1/operations', phone)).status).toBe(200);
    }
    now += 91 * day;
    expect((await service.get('/api/v1/operations', phone)).status).toBe(401);
  });

  it('a lost phone is withdrawn from the desk; nobody withdraws another person’s', async () => {
    const { token } = await service.person('Tobin Quay');
    const phone = (await service.call('POST', '/api/v1/account/devices', token, { label: 'lost' })).json;
    const listed = await service.get('/api/v1/account/tokens', token);
    expect(listed.json.tokens.map(({ kind, label }: { kind: string; label: string }) => [kind, label])).toEqual([
      ['person', 'test'],
      ['device', 'lost'],
    ]);
    expect(listed.text).not.toContain(phone.token);
    const path = `/api/v1/account/tokens/${phone.tokenId}`;
    expect((await service.call('DELETE', path, op.tokens.manager)).status).toBe(404);
    expect((await service.get('/api/v1/operations', phone.token)).status).toBe(200);
    expect((await service.call('DELETE', path, token)).status).toBe(204);
    expect((await service.get('/api/v1/operations', phone.token)).status).toBe(401);
  });

  it('a phone that was found makes no further tokens', async () => {
    const { token } = await service.person('Tobin Quay');
    const phone = (await service.call('POST', '/api/v1/account/devices', token, { label: 'found' })).json.token;
    for (const [path, body] of [
      ['/api/v1/account/devices', { label: 'more' }],
      ['/api/v1/account/tokens', { label: 'more', operationId: op.operationId, role: 'inspector' }],
    ] as const) {
      expect([path, (await service.call('POST', path, phone, body)).status]).toEqual([path, 403]);
    }
  });

  it('a phone that was found ends its own token, and none of its person’s others', async () => {
    const { token } = await service.person('Tobin Quay');
    const add = async (label: string): Promise<{ readonly token: string; readonly tokenId: string }> =>
      (await service.call('POST', '/api/v1/account/devices', token, { label })).json;
    const [found, kept] = [await add('found'), await add('kept')];
    const end = async (tokenId: string): Promise<number> =>
      (await service.call('DELETE', `/api/v1/account/tokens/${tokenId}`, found.token)).status;
    expect(await end(kept.tokenId)).toBe(403);
    expect((await service.get('/api/v1/operations', kept.token)).status).toBe(200);
    expect(await end(found.tokenId)).toBe(204);
    expect((await service.get('/api/v1/operations', found.token)).status).toBe(401);
  });

  it('a phone that was found does not choose its person’s first password', async () => {
    const { token } = await service.person('Tobin Quay');
    const phone = (await service.call('POST', '/api/v1/account/devices', token, { label: 'found' })).json.token;
    const first = (by: string): Promise<{ status: number }> =>
      service.call('PUT', '/api/v1/account/password', by, { login: named(), password: phrase }, from());
    expect((await first(phone)).status).toBe(403);
    expect((await first(token)).status).toBe(204);
    const next = { current: phrase, password: other };
    expect((await service.call('PUT', '/api/v1/account/password', phone, next, from())).status).toBe(204);
  });

  it('a changed password ends phones and programs too, where the person says so', async () => {
    const { login, token } = await withPassword();
    const phone = async () =>
      (await service.call('POST', '/api/v1/account/devices', token, { label: 'phone' })).json.token;
    const mine = await signIn(login);
    const [first, second] = [await phone(), await phone()];
    const change = (body: object) =>
      as(mine, 'PUT', '/api/v1/account/password', body, { 'x-csrf-token': mine.csrf, ...from() });
    await change({ current: phrase, password: other });
    expect((await service.get('/api/v1/operations', first)).status).toBe(200);
    await change({ current: other, password: phrase, everywhere: true });
    for (const each of [first, second, token]) expect((await service.get('/api/v1/operations', each)).status).toBe(401);
    expect((await as(mine, 'GET', '/api/v1/session')).status).toBe(200);
  });

  it('a program’s token opens one operation, in no higher role than it was given, until its last day', async () => {
    const second = await service.operation();
    const manager = second.tokens.manager;
    await service.service.grant({
      operationId: op.operationId,
      accountId: second.accounts.manager,
      role: 'manager',
    });
    const make = (role: string) =>
      service.call('POST', '/api/v1/account/tokens', manager, {
        ...{ label: 'weather station', operationId: second.operationId, role, lifeDays: 30 },
      });
    const reader = (await make('inspector')).json.token;
    const writer = (await make('recorder')).json.token;
    expect((await make('manager')).status).toBe(422);
    expect((await service.append(second.operationId, reader, [note('x')])).status).toBe(403);
    expect((await service.append(second.operationId, writer, [note('x')])).status).toBe(200);
    for (const token of [reader, writer]) {
      expect((await service.get(`/api/v1/operations/${op.operationId}/records`, token)).status).toBe(404);
      expect((await service.get(`/api/v1/operations/${second.operationId}/records`, token)).status).toBe(200);
      expect((await service.call('POST', '/api/v1/operations', token, { name: 'x', timeZone: 'UTC' })).status).toBe(
        403,
      );
      expect((await service.call('POST', '/api/v1/account/devices', token, { label: 'x' })).status).toBe(403);
    }
    expect((await service.get('/api/v1/operations', writer)).json.operations).toEqual([
      expect.objectContaining({ operationId: second.operationId, role: 'recorder' }),
    ]);
    now += 31 * day;
    expect((await service.get('/api/v1/operations', writer)).status).toBe(401);
  });

  it('a program’s token cannot be made for an operation that is not one’s own', async () => {
    const { token } = await service.person('Stranger');
    const body = { label: 'x', operationId: op.operationId, role: 'inspector' };
    expect((await service.call('POST', '/api/v1/account/tokens', token, body)).status).toBe(422);
  });
});
