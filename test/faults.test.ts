import { describe, expect, it } from '@jest/globals';
import { storm, type Storm } from './faults/storm.ts';
import { temporaryFolder } from './support/folder.ts';

// FAULTS_KILLS makes it longer; FAULTS_SEED strikes the same way again, as far as the machine's own timing allows.
const kills = Number(process.env['FAULTS_KILLS'] ?? 10);
const seed = Number(process.env['FAULTS_SEED'] ?? Math.floor(Math.random() * 1e9));
const timeout = 60_000 + kills * 20_000;

function expectUnharmed({ told, struck, wrong, batches }: Storm, times: number): void {
  const list = (map: ReadonlyMap<string, number>) => [...map].map(([name, count]) => `${name}: ${count}`).join(', ');
  process.stderr.write(
    `faults: FAULTS_SEED=${seed} FAULTS_KILLS=${kills}: ${list(struck)}; answers ${list(told.statuses)}; ${told.acknowledged.size} records of ${batches} batches\n`,
  );
  expect(wrong.slice(0, 10)).toEqual([]);
  const killed = [...struck].filter(([name]) => name.includes('killed')).reduce((sum, [, count]) => sum + count, 0);
  expect(killed).toBe(times);
  expect(told.acknowledged.size).toBe(told.sent.size);
  expect(told.acknowledged.size).toBeGreaterThan(20 * times);
  expect(batches).toBeGreaterThan(0);
}

describe('phones deliver out of order, twice and again, while kill -9 strikes', () => {
  it(
    'the service and its own database: everything acknowledged is there once, the root is the entries’, facts are a rebuild’s',
    async () => {
      const half = Math.ceil(kills / 2);
      expectUnharmed(await storm(temporaryFolder('faults-own'), { seed, kills: half, remote: false }), half);
    },
    timeout,
  );

  it(
    'the service and a database behind a bad line: the same',
    async () => {
      const half = Math.max(1, Math.floor(kills / 2));
      const folder = temporaryFolder('faults-line');
      expectUnharmed(await storm(folder, { seed: seed + 1, kills: half, remote: true }), half);
    },
    timeout,
  );
});
