import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { z } from 'zod';
import { startEmbeddedDatabase, type EmbeddedDatabase } from '../../apps/api/src/database/embedded.ts';
import { startChild, type ChildService } from '../support/child.ts';
import { Chance } from './chance.ts';
import { wrongClock, type WrongClock } from './clock.ts';
import { deliver, freshlyTold, phone, type Address, type Told } from './phones.ts';
import { startProxy, type Proxy } from './proxy.ts';
import { askReport, reportFaults } from './reports.ts';
import { logFaults, rebuildFaults } from './whole.ts';

/** What a storm gave. */
export interface Storm {
  readonly seed: number;
  /** How often each fault struck. */
  readonly struck: ReadonlyMap<string, number>;
  readonly told: Told;
  readonly batches: number;
  /** A sentence for each thing that is not as it must be. */
  readonly wrong: readonly string[];
}

/** The service, where its database is, and what can be done to both. */
interface Place {
  readonly dataDir: string;
  /** The owner's address as the service is given it; undefined: its own database. */
  readonly through: string | undefined;
  /** The same, past the proxy. */
  readonly direct: string | undefined;
  readonly database: EmbeddedDatabase | null;
  readonly proxy: Proxy | null;
  /** The clock of the service, and of its own database. */
  readonly clock: WrongClock;
  /** Reports that were asked for and not yet seen to be made. */
  readonly reports: string[];
  service: ChildService;
  readonly address: Address;
}

const rebuiltEvery = 5;

/**
 * Phones deliver while service and database are killed in turn, by chance, so many times. With `remote` the database is
 * another machine's, so to speak: it lies behind a proxy that cuts, delays and swallows, and it goes away and comes back.
 */
export async function storm(
  dataDir: string,
  { seed, kills, remote }: { readonly seed: number; readonly kills: number; readonly remote: boolean },
): Promise<Storm> {
  const chance = new Chance(seed);
  const told = freshlyTold();
  const wrong: string[] = [];
  const struck = new Map<string, number>();
  const place = await settle(dataDir, remote);
  let batches = 0;
  try {
    for (let kill = 1; kill <= kills && wrong.length === 0; kill += 1) {
      const until = { stopped: false };
      const phones = [0, 1, 2, 3].map((i) =>
        phone(place.address, new Chance(chance.below(2 ** 31)), kill * 10_000 + i, told, until),
      );
      const before = told.acknowledged.size;
      await pause(150 + chance.below(500));
      // A packet over many batches takes minutes: a report is cut short while the log is small.
      const ways: [Fault, ...Fault[]] = before < 3_000 ? [...killings, killedInReport] : killings;
      const faults: Fault[] = [chance.of(remote ? [...disturbances, clockSet] : [clockSet, calm]), chance.of(ways)];
      for (const [name, strike] of faults) {
        struck.set(name, (struck.get(name) ?? 0) + 1);
        await strike(place, chance);
      }
      // Phones get through again, by themselves.
      const enough = told.acknowledged.size + 20;
      for (let i = 0; i < 300 && told.acknowledged.size < enough && told.wrong.length === 0; i += 1) await pause(100);
      if (told.acknowledged.size < enough) wrong.push(`kill ${kill}: nothing gets through any more`);
      until.stopped = true;
      await Promise.all(phones);
      if (told.acknowledged.size === before) wrong.push(`kill ${kill}: nothing was recorded`);
      wrong.push(...(await deliverRest(place.address, told)), ...told.wrong.splice(0));
      // What the service said of itself then: a fault without its place helps nobody.
      if (wrong.length > 0) wrong.push(...place.service.faults.slice(-3));
      wrong.push(...(await logFaults(place.address, told)));
      wrong.push(...(await reportFaults(place.address, place.reports.splice(0))));
      if (kill % rebuiltEvery === 0 || kill === kills) {
        const rebuilt = await rebuildFaults(dataDir, place.direct, place.address.operationId).catch(
          (error: unknown) => {
            throw new Error(`kill ${kill}: not rebuilt; the database said last: ${lastSaid(dataDir)}`, {
              cause: error,
            });
          },
        );
        batches = rebuilt.batches;
        wrong.push(...rebuilt.wrong);
        process.stderr.write(
          `faults: ${kill} of ${kills} kills, ${told.acknowledged.size} records, wrong: ${wrong.length}\n`,
        );
      }
    }
  } finally {
    place.proxy?.heal();
    await place.service.end('SIGTERM');
    await place.proxy?.close();
    await place.database?.stop();
  }
  return { seed, struck, told, batches, wrong };
}

/** The end of the log of the database under a data folder. */
function lastSaid(dataDir: string): string {
  const log = join(dataDir, 'pg', 'server.log');
  return existsSync(log) ? readFileSync(log, 'utf8').trim().split('\n').slice(-8).join(' | ') : 'nothing here';
}

type Fault = readonly [name: string, strike: (place: Place, chance: Chance) => Promise<void>];

const killings: [Fault, ...Fault[]] = [
  [
    'service killed',
    async (place) => {
      await place.service.end('SIGKILL');
      await again(place);
    },
  ],
  [
    'database killed',
    async (place) => {
      process.kill(await postmaster(place), 'SIGKILL');
      // Its own the service brings back itself. A process that is only about to die would count as running.
      while (place.database !== null && (await place.database.pid()) !== null) await pause(20);
      await place.database?.revive();
    },
  ],
];

const again = async (place: Place): Promise<void> => {
  place.service = await startChild(place.dataDir, place.through, place.clock.environment);
  place.address.url = place.service.url;
};

const killedInReport: Fault = [
  'service killed in the middle of a report',
  async (place) => {
    place.reports.push(await askReport(place.address));
    await place.service.end('SIGKILL');
    await again(place);
  },
];

/** The clock is set up to two hours ahead or behind, and stays so until it is set again. */
const clockSet: Fault = [
  'clock set wrong',
  async ({ clock }, chance) => {
    clock.set(chance.below(14_400) - 7_200);
    await pause(1_100);
  },
];
const calm: Fault = ['nothing', () => Promise.resolve()];

const disturbances: [Fault, ...Fault[]] = [
  ['connections cut', async ({ proxy }) => proxy?.cut()],
  [
    'connections cut again and again',
    async ({ proxy }, chance) => {
      for (let i = 0; i < 8; i += 1) {
        proxy?.cut();
        await pause(chance.below(120));
      }
    },
  ],
  [
    'answers delayed',
    async ({ proxy }, chance) => {
      proxy?.delay(20 + chance.below(150));
      await pause(1_200);
      proxy?.heal();
    },
  ],
  [
    'silence on the line',
    async ({ proxy }, chance) => {
      proxy?.silence();
      await pause(300 + chance.below(900));
      proxy?.heal();
    },
  ],
  [
    'database away for a while',
    async ({ database }, chance) => {
      await database?.stop();
      await pause(chance.below(1_000));
      await database?.revive();
    },
  ],
];

async function settle(dataDir: string, remote: boolean): Promise<Place> {
  const database = remote ? await startEmbeddedDatabase(join(dataDir, 'elsewhere')) : null;
  const direct = database?.ownerUrl;
  const proxy = direct === undefined ? null : await startProxy(Number(new URL(direct).port));
  const url = new URL(direct ?? 'postgres://none');
  if (proxy !== null) url.port = String(proxy.port);
  const through = proxy === null ? undefined : url.toString();
  const clock = wrongClock(dataDir);
  const service = await startChild(dataDir, through, clock.environment);
  const made = await fetch(`${service.url}/api/v1/operations`, {
    method: 'POST',
    headers: { authorization: `Bearer ${service.token}`, 'content-type': 'application/json' },
    body: JSON.stringify({ name: 'Quillfen Growers', timeZone: 'UTC' }),
  });
  const { operationId } = z.object({ operationId: z.string() }).parse(await made.json());
  const address = { url: service.url, token: service.token, operationId };
  return { dataDir, through, direct, database, proxy, clock, reports: [], service, address };
}

async function postmaster({ dataDir, database }: Place): Promise<number> {
  if (database !== null) {
    const pid = await database.pid();
    if (pid === null) throw new Error('the database is down already');
    return pid;
  }
  return Number(readFileSync(join(dataDir, 'pg', 'postmaster.pid'), 'utf8').split('\n')[0]);
}

/** What phones still hold is delivered in the end, each record once. */
async function deliverRest(to: Address, told: Told): Promise<string[]> {
  const rest = [...told.sent.values()].filter(({ id }) => !told.acknowledged.has(id));
  for (let start = 0; start < rest.length; start += 500) {
    const piece = rest.slice(start, start + 500);
    let done = false;
    for (let tries = 0; tries < 50 && !done; tries += 1) {
      done = await deliver(to, piece, told);
      if (!done) await pause(200);
    }
    if (!done) return ['what phones hold cannot be delivered any more'];
  }
  return [];
}
