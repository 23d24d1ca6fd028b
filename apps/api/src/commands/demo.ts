import { mkdir } from 'node:fs/promises';
import { join, relative } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import {
  AccessFile,
  allFindings,
  recordSeason,
  SeasonClock,
  seasonYear,
  tell,
  writeFiles,
  writeSeason,
} from '../demo/index.ts';
import { AlreadyServed, liveHolder } from '../database/index.ts';
import { startService, type RunningService } from '../service.ts';
import type { Command } from './command.ts';
import { home } from './home.ts';
import { options } from './options.ts';
import { port } from './port.ts';
import { untilStopped } from './stop.ts';

export const demo: Command = {
  verb: 'demo',
  usage: '[--exit]',
  purpose:
    'Records an invented season as a new operation under ./data/demo, prints its findings, writes PDFs under ./out/demo and serves until stopped; --exit stops after writing.',
  async run(args) {
    const { flags } = options(args, [], ['exit']);
    const stopped = untilStopped();
    const clock = new SeasonClock();
    const folder = join(home(), 'out', 'demo');
    await mkdir(folder, { recursive: true });
    const dataDir = join(home(), 'data', 'demo');
    // Another demo that is running keeps its way in.
    const holder = await liveHolder(dataDir);
    if (holder !== null) throw new AlreadyServed(holder, dataDir);
    const access = new AccessFile(folder);
    await access.remove();
    console.error('Starting the embedded database and recording the season …');
    // Always its own embedded database: an invented farm has no business among real ones.
    const service = await startService({ dataDir, clock, port: port(), log: 'warn' });
    try {
      await Promise.race([stopped, recordAndTell(service, clock, folder, access)]);
      if (!flags.has('exit')) await stopped;
    } finally {
      await service.close();
    }
    return 0;
  },
};

async function recordAndTell(
  service: RunningService,
  clock: SeasonClock,
  folder: string,
  access: AccessFile,
): Promise<void> {
  const year = seasonYear(new Date());
  const recorded = await recordSeason(service, clock, writeSeason(year));
  const { operationId, clients, records } = recorded;
  const findings = await allFindings(clients.inspector, operationId);
  const files = await writeFiles(folder, recorded, findings);
  await ready(service.url);
  await access.write(service.url, recorded);
  const width = process.stdout.isTTY ? process.stdout.columns : 120;
  const { url } = service;
  const shown = `${relative(process.cwd(), folder) || folder}/`;
  console.log(
    tell({ year, records, findings, files, folder: shown, url, token: clients.inspector.token, operationId, width }),
  );
}

/** Waits until the service says that it is ready for anybody. */
async function ready(url: string): Promise<void> {
  for (let tries = 0; tries < 240; tries += 1) {
    const answer = await fetch(`${url}/readyz`).catch(() => null);
    if (answer?.status === 200) return;
    await wait(250);
  }
  throw new Error('the service did not become ready within a minute');
}
