import { randomUUID } from 'node:crypto';
import { startService } from '@furrowmark/api';
import { DataSource } from 'typeorm';

// A service that says all it has to say, in a process of its own so that what it prints can be read: people sign in, use
// links, attach personal values, fail; then its tables are taken away, so that it fails itself. Everything that must not
// have been printed is named on the other channel.
const [dataDir = '', databaseUrl = ''] = process.argv.slice(2);
const service = await startService({ dataDir, databaseUrl: databaseUrl || undefined, log: 'debug' });
const secrets: string[] = ['nettle harrow tuesday bucket', 'not the password at all', 'Ottilie Brandwein', '4831'];
const { accountId } = await service.createAccount({ name: 'Ottilie Brandwein' });
const { token } = await service.issueToken({ accountId, label: 'test' });
secrets.push(token);

async function call(method: string, path: string, bearer: string | null, body?: unknown, headers = {}) {
  const answer = await fetch(`${service.url}${path}`, {
    method,
    headers: {
      ...(bearer === null ? {} : { authorization: `Bearer ${bearer}` }),
      ...(body === undefined ? {} : { 'content-type': 'application/json' }),
      ...headers,
    },
    ...(body === undefined ? {} : { body: JSON.stringify(body) }),
  });
  const json: any = await answer.json().catch(() => null); // eslint-disable-line @typescript-eslint/no-explicit-any -- a test reads what it expects
  return { status: answer.status, cookies: answer.headers.getSetCookie(), json };
}

const login = `ottilie-${randomUUID()}`;
secrets.push(login);
const password = 'nettle harrow tuesday bucket';
await call('PUT', '/api/v1/account/password', token, { login, password });
const session = await call('POST', '/api/v1/session', null, { login, password });
for (const cookie of session.cookies) secrets.push(cookie.split(/[=;]/)[1] ?? '');
secrets.push(session.json.csrfToken);
await call('POST', '/api/v1/session', null, { login, password: 'not the password at all' });
const { operationId } = (await call('POST', '/api/v1/operations', token, { name: 'Farm', timeZone: 'UTC' })).json;
const base = `/api/v1/operations/${operationId}`;
const person = {
  ...{ id: randomUUID(), type: 'person.registered', version: 1, occurredAt: '2026-06-03T06:10:00Z' },
  data: { personId: randomUUID(), personal: { name: 'Ottilie Brandwein' } },
};
await call('POST', `${base}/records`, token, { records: [person] });
const invited = await call('POST', `${base}/members`, token, { name: 'Ottilie Brandwein', role: 'recorder' });
const link = await call('POST', `${base}/access-links`, token, {});
const phone = await call('POST', `${base}/phones`, token, { label: 'phone at the tank' });
const pinned = await call('POST', `${base}/members`, token, {
  name: 'Ottilie Brandwein',
  role: 'recorder',
  pin: '4831',
});
const byPin = await call('POST', '/api/v1/session/pin', phone.json.token, { ...pinned.json, pin: '4831' });
secrets.push(invited.json.invitation, link.json.token, phone.json.token, byPin.json.token);
await call('GET', `${base}/records?about=${link.json.token}`, link.json.token);

const ownerUrl = databaseUrl || (service.database.embedded?.ownerUrl ?? '');
const owner = await new DataSource({ type: 'postgres', url: ownerUrl }).initialize();
for (const table of ['credential', 'attempt', 'opening', 'invitation']) {
  await owner.query(`ALTER TABLE ${table} RENAME TO ${table}_away`);
}
const failed = [
  await call('POST', '/api/v1/session', null, { login, password }),
  await call('POST', `${base}/records`, token, { records: [{ ...person, id: randomUUID() }] }),
  await call('POST', '/api/v1/invitations/accept', null, { invitation: invited.json.invitation, login, password }),
];
await owner.destroy();
await service.close();
process.stderr.write(
  `${JSON.stringify({ secrets, failed: failed.map(({ status }) => status), signedIn: session.status, byPin: byPin.status })}\n`,
);
process.exit(0);
