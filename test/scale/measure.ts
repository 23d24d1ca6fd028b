import { mkdtempSync, rmSync, chmodSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openService, startService } from '@furrowmark/api';
import pg from 'pg';
import { Seasons } from '../../apps/api/src/views/index.ts';
import { Chance } from '../faults/chance.ts';
import { brew } from '../faults/phones.ts';

// What one record and one operation cost: node --expose-gc --import ./apps/api/register.mjs test/scale/measure.ts
// Processor time, not the clock's: other work on the machine does not count. docs/scale.md has the figures and what they
// come to.
const records = Number(process.argv[2] ?? 10_000);
const farms = Number(process.argv[3] ?? 100);
const perFarm = 200;
const dataDir = mkdtempSync(join(tmpdir(), 'furrowmark-scale-'));
chmodSync(dataDir, 0o755);
const mb = (bytes: number): string => (bytes / 1e6).toFixed(1);
const say = (what: string, figure: string): void => void process.stdout.write(`${what}: ${figure}\n`);
const cpu = (): number => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1_000;
};

const service = await startService({ dataDir, log: 'silent' });
const { accountId } = await service.createAccount({ name: 'Ines' });
const { token } = await service.issueToken({ accountId, label: 'scale' });
const database = new pg.Client({ connectionString: service.database.embedded?.ownerUrl ?? '' });
await database.connect();
const size = async (): Promise<number> => {
  await database.query('VACUUM FULL');
  return Number((await database.query('SELECT pg_database_size(current_database()) AS size')).rows[0].size);
};
async function operation(): Promise<string> {
  const made = await service.createOperation({ accountId, name: 'Ines' }, { name: 'Farm', timeZone: 'UTC' });
  if (!('operationId' in made)) throw new Error(made.refused.detail);
  return made.operationId;
}
async function record(operationId: string, count: number, seed: number): Promise<void> {
  const chance = new Chance(seed);
  const all = Array.from({ length: Math.ceil(count / 9) }, (_, i) => brew(chance, i)).flat();
  for (let at = 0; at < count; at += 100) {
    const answer = await fetch(`${service.url}/api/v1/operations/${operationId}/records`, {
      method: 'POST',
      headers: { authorization: `Bearer ${token}`, 'content-type': 'application/json' },
      body: JSON.stringify({ records: all.slice(at, Math.min(at + 100, count)) }),
    });
    if (answer.status !== 200) throw new Error(await answer.text());
    await answer.text();
  }
}
const settled = async (): Promise<void> => {
  for (let left = 1; left > 0;) {
    left = Number((await database.query('SELECT count(*) AS left FROM stale')).rows[0].left);
    await new Promise((done) => setTimeout(done, 200));
  }
};

const [empty, before] = [await size(), cpu()];
const large = await operation();
await record(large, records, 1);
await settled();
const appended = cpu() - before;
say(
  'processor time of service and client, appended a hundred at a time',
  `${((1000 * appended) / records).toFixed(0)} ms a thousand`,
);
const full = await size();
say('database', `${((full - empty) / records).toFixed(0)} bytes a record, with indexes, tree, facts`);
const ids: string[] = [];
for (let i = 0; i < farms; i += 1) {
  const id = await operation();
  await record(id, perFarm, 100 + i);
  ids.push(id);
}
await settled();
say('database, small operations', `${((await size()) - full) / farms / 1e3} kB each of ${perFarm} records`);
await database.end();
await service.close();

const collected = (): number => {
  for (let i = 0; i < 3; i += 1) globalThis.gc?.();
  return process.memoryUsage().heapUsed;
};
const reader = await openService({ dataDir, log: 'silent' });
const seasons = reader.context.get(Seasons);
const idle = collected();
say('at rest, heap in use', `${mb(idle)} MB`);
const began = cpu();
await seasons.read(large, ({ season }) => season.size);
say(
  'a season opened from the log',
  `${(records / ((cpu() - began) / 1_000)).toFixed(0)} records a second of processor time`,
);
const one = collected();
say('kept folded', `${((one - idle) / records).toFixed(0)} bytes a record`);
const smallBegan = cpu();
for (const id of ids) await seasons.read(id, ({ season }) => season.size);
say('small operations opened', `${((cpu() - smallBegan) / farms).toFixed(1)} ms each`);
say('small operations kept folded', `${((collected() - one) / farms / 1e3).toFixed(0)} kB each of ${perFarm} records`);
await reader.close();
rmSync(dataDir, { recursive: true, force: true });
process.exit(0);
