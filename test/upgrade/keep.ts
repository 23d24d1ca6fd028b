import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { gzipSync } from 'node:zlib';
import { startService } from '@furrowmark/api';
import { recordTypes, typeEntry } from '@furrowmark/domain';
import { DataSource } from 'typeorm';
import { example } from '../../libs/domain/src/records/corpus/read.ts';
import { seed, type Told } from './fixture.ts';

// Keeps the database of this release for the tests of later ones, as DEVELOPERS.md says under "Releasing":
//   DATABASE_URL=postgres://… node --import ./apps/api/register.mjs test/upgrade/keep.ts
// DATABASE_URL names the owner of an empty database; `pg_dump` of its version must be there.
const databaseUrl = process.env['DATABASE_URL'];
if (databaseUrl === undefined) throw new Error('DATABASE_URL names no empty database');
const { version: release }: { version: string } = JSON.parse(
  readFileSync(new URL('../../package.json', import.meta.url), 'utf8'),
);
const dataDir = mkdtempSync(join(tmpdir(), 'furrowmark-release-'));
mkdirSync(dataDir, { recursive: true });
writeFileSync(join(dataDir, 'log-signing-key'), seed, { mode: 0o600 });

const service = await startService({ dataDir, databaseUrl, log: 'error' });
async function ask(method: string, path: string, token: string | null, body?: unknown, type = 'application/json') {
  const answer = await fetch(service.url + path, {
    method,
    headers: { ...(token === null ? {} : { authorization: `Bearer ${token}` }), 'content-type': type },
    ...(body === undefined ? {} : { body: body instanceof Uint8Array ? new Uint8Array(body) : JSON.stringify(body) }),
  });
  const text = await answer.text();
  if (!answer.ok) throw new Error(`${method} ${path}: ${answer.status} ${text}`);
  return text;
}
const made = async (path: string, token: string, body: unknown) => JSON.parse(await ask('POST', path, token, body));

const { accountId } = await service.createAccount({ name: 'Ines Fallow' });
const { token: manager } = await service.issueToken({ accountId, label: 'office', lifeDays: 3650 });
const { operationId } = await made('/api/v1/operations', manager, {
  name: 'Quillfen Growers',
  timeZone: 'America/New_York',
});
const base = `/api/v1/operations/${operationId}`;
const other = await service.createAccount({ name: 'Ruth Carrick' });
const { token: recorder } = await service.issueToken({ accountId: other.accountId, label: 'office', lifeDays: 3650 });
await service.grant({ operationId, accountId: other.accountId, role: 'recorder' });
const [login, password] = ['ines', 'nettle harrow tuesday bucket'];
await ask('PUT', '/api/v1/account/password', manager, { login, password });
const phone = await made(`${base}/phones`, manager, { label: 'phone at the tank' });
const link = await made(`${base}/access-links`, manager, {});
await made(`${base}/log/witnesses`, manager, { address: 'office@certifier.example', everyDays: 30 });
const pdf = Buffer.from('%PDF-1.4\n1 0 obj<</Type/Catalog>>endobj\ntrailer<</Root 1 0 R>>\n%%EOF\n');
await ask('POST', `${base}/documents`, recorder, pdf, 'application/pdf');

// One record of each type: whatever a release may have written is there to be read.
const records = recordTypes.filter((type) => typeEntry(type)?.server !== true).map((type) => example(type));
const { results } = await made(`${base}/records`, manager, { records });
const refused = results.filter(({ status }: { status: string }) => status !== 'recorded');
if (refused.length > 0) throw new Error(JSON.stringify(refused));

const owner = await new DataSource({ type: 'postgres', url: databaseUrl }).initialize();
for (let left = 1; left > 0; await pause(100))
  [{ left }] = await owner.query('SELECT count(*)::int AS left FROM stale');
await owner.destroy();
const { batches } = JSON.parse(await ask('GET', `${base}/batches`, manager));
const told: Told = {
  ...{ release, madeAt: new Date().toISOString(), operationId, login, password },
  tokens: { manager, recorder, phone: phone.token, link: link.token },
  checkpoint: await ask('GET', `${base}/log/checkpoint`, manager),
  key: (await ask('GET', `${base}/log/key`, manager)).trim(),
  entries: createHash('sha256')
    .update(await ask('GET', `${base}/log/entries?from=0`, manager))
    .digest('hex'),
  batches: batches.map(({ batchId, code }: { batchId: string; code: string }) => ({ batchId, code })),
};
await service.close();

// Statements that any client can send: no meta-commands of psql's, no COPY.
const dump = execFileSync('pg_dump', ['--inserts', '--no-owner', databaseUrl], {
  encoding: 'utf8',
  maxBuffer: 1 << 28,
});
const serviceLogin = /furrowmark_[0-9a-f]{12}/;
const sql = dump
  .split('\n')
  .filter((line) => !line.startsWith('\\') && !line.startsWith('--') && !serviceLogin.test(line) && line !== '')
  .join('\n');
const beside = (name: string): URL => new URL(name, import.meta.url);
writeFileSync(beside(`${release}.sql.gz`), gzipSync(sql, { level: 9 }));
writeFileSync(beside(`${release}.json`), `${JSON.stringify(told, null, 2)}\n`);
rmSync(dataDir, { recursive: true, force: true });
process.exit(0);
