import { appendFileSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { afterAll, describe, expect, it } from '@jest/globals';
import { startService, type RunningService } from '@furrowmark/api';
import { DataSource } from 'typeorm';
import { startEmbeddedDatabase, type EmbeddedDatabase } from '../apps/api/src/database/embedded.ts';
import { databaseUser, giveTo } from '../apps/api/src/database/run-as.ts';
import { readyCluster } from './support/cluster.ts';
import { furrowmark, furrowmarkOn } from './support/command-line.ts';
import { temporaryFolder } from './support/folder.ts';
import { note } from './support/service.ts';
import { baseBackup } from './support/standby.ts';

// The drill of docs/operating.md, “To a moment”, with the archive command of docker-compose.yml: somebody does harm at a
// known time, and the database comes back as it was just before.
const home = temporaryFolder('moment');
const dataDir = join(home, 'data');
const archive = join(home, 'wal');
const running: { close(): Promise<void> }[] = [];
afterAll(async () => {
  for (const each of running.reverse()) await each.close();
});

const composed = (): string => {
  const compose = readFileSync(new URL('../docker-compose.yml', import.meta.url), 'utf8');
  const found = /- archive_command=(.+)/.exec(compose)?.[1] ?? '';
  expect(found).toContain('%p');
  return found.replaceAll('/wal/', `${archive}/`);
};
const seconds = (text: string): string => text.replace('T', ' ');

describe('the write-ahead log, archived as docker-compose.yml says', () => {
  it('brings the database back to a moment; what was recorded since is missing, and the log says so under a new key', async () => {
    await readyCluster(dataDir);
    mkdirSync(archive);
    await giveTo(await databaseUser(), archive);
    const settings = `archive_mode = on\narchive_command = '${composed()}'\n`;
    appendFileSync(join(dataDir, 'pg', 'postgresql.auto.conf'), settings);
    const service = await startService({ dataDir, log: 'error' });
    running.push(service);
    const ownerUrl = service.database.embedded?.ownerUrl ?? '';
    const owner = await new DataSource({ type: 'postgres', url: ownerUrl }).initialize();
    running.push({ close: () => owner.destroy() });

    const { accountId } = await service.createAccount({ name: 'Ines' });
    const { token } = await service.issueToken({ accountId, label: 'test' });
    const person = { accountId, name: 'Ines' };
    const made = await service.createOperation(person, { name: 'Quillfen Growers', timeZone: 'UTC' });
    if (!('operationId' in made)) throw new Error(made.refused.detail);
    const at = `/api/v1/operations/${made.operationId}`;
    const ask = async (from: RunningService, path: string, records?: object[]): Promise<string> => {
      const answer = await fetch(from.url + at + path, {
        headers: { authorization: `Bearer ${token}`, 'content-type': 'application/json' },
        ...(records === undefined ? {} : { method: 'POST', body: JSON.stringify({ records }) }),
      });
      expect(answer.status).toBe(200);
      return answer.text();
    };
    await ask(service, '/records', [note('before the copy'), note('before the copy too')]);

    // The nightly copy of the server, while it runs.
    const copy = temporaryFolder('moment-copy');
    await baseBackup({ dataDir, ownerUrl }, copy, { settings: [], signal: 'recovery' });
    await ask(service, '/records', [note('after the copy')]);
    const [{ moment }] = await owner.query('SELECT clock_timestamp()::text AS moment');
    await pause(50);
    await ask(service, '/records', [note('the harm')]);
    const newest = join(home, 'newest');
    writeFileSync(newest, await ask(service, '/log/checkpoint'));
    const [{ file }] = await owner.query('SELECT pg_walfile_name(pg_switch_wal()) AS file');
    for (let i = 0; i < 400; i += 1) {
      const [{ done }] = await owner.query(
        'SELECT coalesce(last_archived_wal >= $1, false) AS done FROM pg_stat_archiver',
        [file],
      );
      if (done) break;
      await pause(50);
    }

    // Another server, from the copy and the archive, up to the moment.
    appendFileSync(
      join(copy, 'pg', 'postgresql.auto.conf'),
      `archive_mode = off\nrestore_command = 'cp ${archive}/%f %p'\n` +
        `recovery_target_time = '${seconds(moment)}'\nrecovery_target_action = 'promote'\n`,
    );
    const brought: EmbeddedDatabase = await startEmbeddedDatabase(copy);
    running.push({ close: () => brought.stop() });
    const there = await new DataSource({ type: 'postgres', url: brought.ownerUrl }).initialize();
    let recovering = true;
    for (let i = 0; i < 400 && recovering; i += 1) {
      await pause(50);
      [{ recovering }] = await there.query('SELECT pg_is_in_recovery() AS recovering');
    }
    const [{ size }] = await there.query('SELECT count(*)::int AS size FROM log_entry');
    await there.destroy();
    expect([recovering, size]).toEqual([false, 4]);

    // From there as with any backup: the log must not fork.
    const backup = join(home, 'moment.backup');
    const keys = join(home, 'keys.backup');
    const passphrase = join(home, 'passphrase');
    writeFileSync(passphrase, 'nettle harrow tuesday bucket\n');
    expect((await furrowmarkOn(brought.ownerUrl, home, 'backup', '--out', backup)).code).toBe(0);
    const kept = await furrowmark(home, 'backup', '--keys', '--out', keys, '--passphrase-file', passphrase);
    expect(kept.code).toBe(0);
    const again = temporaryFolder('moment-again');
    await readyCluster(join(again, 'data'));
    const restored = await furrowmark(
      ...([again, 'restore', backup, '--keys', keys, '--against', newest, '--passphrase-file', passphrase] as const),
    );
    expect([restored.code, restored.out]).toEqual([0, expect.stringContaining('a checkpoint of 5 is known')]);
    const back = await startService({ dataDir: join(again, 'data'), log: 'error' });
    running.push(back);
    const records: { type: string; data: { note?: string } }[] = JSON.parse(await ask(back, '/records')).records;
    expect(records.map(({ type, data }) => data.note ?? type)).toEqual([
      ...['operation.described', 'before the copy', 'before the copy too', 'after the copy', 'log.restored'],
    ]);
  }, 120_000);
});
