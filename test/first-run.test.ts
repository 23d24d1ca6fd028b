import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { startService, type RunningService } from '@furrowmark/api';
import { furrowmark as typed, type Said } from './support/command-line.ts';
import { temporaryFolder } from './support/folder.ts';

// What a person types on a fresh machine to get in, on an embedded database of its own.
const home = temporaryFolder('first-run');
const furrowmark = (...args: string[]): Promise<Said> => typed(home, ...args);
const phrase = 'nettle harrow tuesday bucket';
let operationId: string;
let token: string;
let service: RunningService;

const call = (method: string, path: string, body?: object, bearer?: string): Promise<Response> =>
  fetch(service.url + path, {
    method,
    headers: {
      'content-type': 'application/json',
      ...(bearer === undefined ? {} : { authorization: `Bearer ${bearer}` }),
    },
    ...(body === undefined ? {} : { body: JSON.stringify(body) }),
  });
const invitationIn = (out: string): string => /^invitation {2}(fmi_\S{43})$/m.exec(out)?.[1] ?? '';
const accept = (body: object): Promise<Response> => call('POST', '/api/v1/invitations/accept', body);

beforeAll(async () => {
  const made = await furrowmark('operation', 'create', '--name', 'Thistle End', '--time-zone', 'America/Chicago');
  operationId = /operation {2}(\S+)/.exec(made.out)?.[1] ?? '';
  token = /token {6}(\S+)/.exec(made.out)?.[1] ?? '';
  service = await startService({ dataDir: join(home, 'data'), log: 'error' });
}, 90_000);
afterAll(() => service.close());

describe('getting in for the first time', () => {
  it('with the token that "operation create" prints a manager chooses a name and a password', async () => {
    const set = await call('PUT', '/api/v1/account/password', { login: 'orla', password: phrase }, token);
    expect(set.status).toBe(204);
    expect((await call('POST', '/api/v1/session', { login: 'Orla', password: phrase })).status).toBe(201);
  });

  it('there is no password before somebody chose one', async () => {
    for (const [login, password] of [
      ['admin', 'admin'],
      ['admin', 'password'],
      ['furrowmark', 'furrowmark'],
      ['manager', ''],
    ] as const) {
      expect((await call('POST', '/api/v1/session', { login, password })).status).not.toBe(201);
    }
  });

  it('"person invite" prints an invitation that makes a member', async () => {
    const { code, out } = await furrowmark(
      ...['person', 'invite', '--operation', operationId, '--name', 'Sefa Lindgarth', '--role', 'reviewer'],
    );
    expect(code).toBe(0);
    const accepted = await accept({ invitation: invitationIn(out), login: 'sefa', password: phrase });
    expect([accepted.status, await accepted.json()]).toEqual([
      201,
      expect.objectContaining({ operationId, role: 'reviewer' }),
    ]);
    const records = await call(
      'GET',
      `/api/v1/operations/${operationId}/records?type=access.granted`,
      undefined,
      token,
    );
    const body: unknown = await records.json();
    expect(body).toMatchObject({ records: [{ data: { role: 'reviewer' } }] });
  }, 60_000);

  it('"person reset" lets somebody who forgot the password choose a new one; the old one opens nothing', async () => {
    const { out } = await furrowmark('person', 'reset', '--login', 'ORLA');
    const fresh = 'quiet lantern over the hedge row';
    expect((await accept({ invitation: invitationIn(out), password: fresh })).status).toBe(201);
    expect((await call('POST', '/api/v1/session', { login: 'orla', password: phrase })).status).toBe(401);
    expect((await call('POST', '/api/v1/session', { login: 'orla', password: fresh })).status).toBe(201);
    expect((await accept({ invitation: invitationIn(out), password: phrase })).status).toBe(404);
  }, 60_000);

  it.each([
    [['person'], 'person invite'],
    [['person', 'invite', '--name', 'x'], '--operation, --name and --role'],
    [
      ['person', 'invite', '--name', 'x', '--role', 'manager', '--operation', '00000000-0000-7000-8000-000000000000'],
      'there is no operation',
    ],
    [['person', 'reset', '--login', 'nobody-here'], 'nobody signs in as'],
  ])('%j is refused in words', async (args, words) => {
    const { code, err } = await furrowmark(...args);
    expect(code).toBe(65);
    expect(err).toContain(words);
  });
});
