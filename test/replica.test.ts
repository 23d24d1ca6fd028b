import { copyFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { startService, type RunningService } from '@furrowmark/api';
import { run } from '@furrowmark/verify';
import { DataSource } from 'typeorm';
import type { EmbeddedDatabase } from '../apps/api/src/database/embedded.ts';
import { readyCluster } from './support/cluster.ts';
import { temporaryFolder } from './support/folder.ts';
import { note } from './support/service.ts';
import { standbyOf } from './support/standby.ts';

// Two PostgreSQL servers, the one following the other by streaming replication; beside the service that everybody
// records with, others that read reports and exports from the follower.
const dataDir = temporaryFolder('replica-primary');
let primary: RunningService;
let ownerUrl = '';
let standby: EmbeddedDatabase;
let replica: DataSource;
let operationId = '';
let token = '';
let folders = 0;

/** A service that has folded nothing yet. */
function freshService(reportsDatabaseUrl: string): Promise<RunningService> {
  const other = temporaryFolder(`replica-service-${(folders += 1)}`);
  copyFileSync(join(dataDir, 'log-signing-key'), join(other, 'log-signing-key'));
  return startService({ dataDir: other, databaseUrl: ownerUrl, reportsDatabaseUrl, log: 'error' });
}
const get = (from: RunningService, path: string): Promise<Response> =>
  fetch(`${from.url}/api/v1/operations/${operationId}${path}`, { headers: { authorization: `Bearer ${token}` } });
async function record(count: number): Promise<void> {
  for (let left = count; left > 0; left -= 500) {
    const records = Array.from({ length: Math.min(500, left) }, () => note('looked at it'));
    const answer = await fetch(`${primary.url}/api/v1/operations/${operationId}/records`, {
      method: 'POST',
      headers: { authorization: `Bearer ${token}`, 'content-type': 'application/json' },
      body: JSON.stringify({ records }),
    });
    expect(answer.status).toBe(200);
  }
}
async function reads(from: RunningService): Promise<{ answered: number; failed: number }> {
  const text = await (await fetch(`${from.url}/metrics`)).text();
  const of = (outcome: string) =>
    Number(new RegExp(`^furrowmark_replica_reads_total\\{outcome="${outcome}"\\} (\\d+)`, 'm').exec(text)?.[1]);
  return { answered: of('answered'), failed: of('failed') };
}
const sizeIn = async (answer: Response): Promise<number> => {
  expect(answer.status).toBe(200);
  const { log }: { log: { size: number } } = JSON.parse(await answer.text());
  return log.size;
};
/** Waits until the follower has what was committed by now. */
async function caughtUp(): Promise<void> {
  const owner = await new DataSource({ type: 'postgres', url: ownerUrl }).initialize();
  const [{ lsn }] = await owner.query('SELECT pg_current_wal_lsn() AS lsn');
  await owner.destroy();
  for (let i = 0; i < 300; i += 1) {
    const [{ there }] = await replica.query('SELECT pg_last_wal_replay_lsn() >= $1::pg_lsn AS there', [lsn]);
    if (there) return;
    await pause(50);
  }
  throw new Error('the follower does not follow');
}

beforeAll(async () => {
  await readyCluster(dataDir);
  primary = await startService({ dataDir, log: 'error' });
  ownerUrl = primary.database.embedded?.ownerUrl ?? '';
  const { accountId } = await primary.createAccount({ name: 'Ines' });
  ({ token } = await primary.issueToken({ accountId, label: 'test' }));
  const made = await primary.createOperation(
    { accountId, name: 'Ines' },
    { name: 'Quillfen Growers', timeZone: 'UTC' },
  );
  if (!('operationId' in made)) throw new Error(made.refused.detail);
  ({ operationId } = made);
  await record(600);
  standby = await standbyOf({ dataDir, ownerUrl }, temporaryFolder('replica-standby'));
  replica = await new DataSource({ type: 'postgres', url: standby.ownerUrl }).initialize();
}, 60_000);
afterAll(async () => {
  if (replica.isInitialized) await replica.destroy();
  await standby.stop();
  await primary.close();
});

describe('REPORTS_DATABASE_URL', () => {
  it('has reports and exports read from a replica, as the service’s own weak login', async () => {
    await caughtUp();
    const service = await freshService(standby.ownerUrl);
    try {
      expect(await sizeIn(await get(service, '/reports/findings.json'))).toBe(601);
      const afterReport = await reads(service);
      expect(afterReport).toEqual({ answered: 1, failed: 0 });
      const [who] = await replica.query(
        `SELECT rolsuper AS super FROM pg_stat_activity JOIN pg_roles ON rolname = usename
          WHERE application_name = 'furrowmark reports'`,
      );
      expect(who).toEqual({ super: false });
      const archive = join(dataDir, 'export.tar');
      writeFileSync(archive, Buffer.from(await (await get(service, '/export')).arrayBuffer()));
      expect(await run([archive], Date.now())).toMatchObject({
        code: 3,
        output: expect.stringContaining('Entries: 601'),
      });
      expect((await reads(service)).answered).toBeGreaterThan(1);
    } finally {
      await service.close();
    }
  }, 60_000);

  it('never gives less than was recorded before it was asked, however far the replica is behind', async () => {
    const service = await freshService(standby.ownerUrl);
    try {
      await caughtUp();
      await replica.query('SELECT pg_wal_replay_pause()');
      await record(30);
      const [{ there }] = await replica.query('SELECT count(*)::int AS there FROM log_entry');
      expect(there).toBe(601);
      expect(await sizeIn(await get(service, '/reports/findings.json'))).toBe(631);
      const archive = join(dataDir, 'export-behind.tar');
      writeFileSync(archive, Buffer.from(await (await get(service, '/export')).arrayBuffer()));
      expect(await run([archive], Date.now())).toMatchObject({
        code: 3,
        output: expect.stringContaining('Entries: 631'),
      });
      expect((await reads(service)).answered).toBeGreaterThan(0);
    } finally {
      await service.close();
      await replica.query('SELECT pg_wal_replay_resume()');
    }
  }, 60_000);

  it('that names no replica of this database is not read: what it has might be anybody’s', async () => {
    const service = await freshService(ownerUrl);
    try {
      expect(await sizeIn(await get(service, '/reports/findings.json'))).toBe(631);
      expect(await reads(service)).toEqual({ answered: 0, failed: 1 });
    } finally {
      await service.close();
    }
  }, 60_000);

  it('that does not answer keeps nobody from a report: the database itself answers', async () => {
    await replica.destroy();
    const service = await freshService(standby.ownerUrl);
    await standby.stop();
    try {
      expect(await sizeIn(await get(service, '/reports/findings.json'))).toBe(631);
      expect((await get(service, '/export')).status).toBe(200);
      // Asked once; then it is left alone for a while.
      expect(await reads(service)).toEqual({ answered: 0, failed: 1 });
    } finally {
      await service.close();
    }
  }, 60_000);
});
