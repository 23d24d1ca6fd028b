import { execFileSync } from 'node:child_process';
import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { cpus, loadavg, tmpdir, totalmem } from 'node:os';
import { chmod } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import type { Extent, Row } from './measure.ts';
import { fill } from './fill.ts';
import { appendRows, inProcessRows, manyRows, memoryRows, settlingRows, singleRows } from './rows/append.ts';
import { judgingRows } from './rows/judging.ts';
import { readingRows } from './rows/reading.ts';
import { reportingRows } from './rows/reporting.ts';
import { startingRows } from './rows/starting.ts';
import { verifyingRows } from './rows/verifying.ts';
import { Served } from './served.ts';
import { tableOf } from './table.ts';

const { values } = parseArgs({
  options: {
    quick: { type: 'boolean' },
    long: { type: 'boolean' },
    out: { type: 'string' },
    rounds: { type: 'string' },
    only: { type: 'string' },
    help: { type: 'boolean', short: 'h' },
  },
});
if (values.help) {
  console.log(`npm run bench                          sizes up to 20,000 records; a table, and out/bench.json
npm run bench -- --long                the sizes of the aims: 100,000 records among a million, some 1,000 pages
npm run bench -- --quick               only shows that every row runs
npm run bench -- --rounds 9            more rounds (usually 5)
npm run bench -- --only reading        some groups: appending, settling, single, reading, verifying, judging, reporting
npm run bench -- --out FILE.json       the figures there instead`);
  process.exit(0);
}
const root = fileURLToPath(new URL('../..', import.meta.url));
const mode = values.quick ? 'quick' : values.long ? 'long' : 'usual';
const extent: Extent = { mode, rounds: mode === 'quick' ? 1 : Number(values.rounds ?? 5) };
/** `--only appending,judging`: some groups of rows; all without it. */
const chosen = (group: string): boolean => values.only === undefined || values.only.split(',').includes(group);
const out = values.out ?? join(root, 'out', 'bench.json');

const home = await mkdtemp(join(tmpdir(), 'furrowmark-bench-'));
await chmod(home, 0o755);
const rows: Row[] = [];
const done = (more: readonly Row[], served?: Served): void => {
  rows.push(...more);
  if (served !== undefined) console.error(`the service's process has ${memoryText(served)} MB`);
  for (const { work, ours, ratio } of more)
    console.error(
      `measured after ${Math.round(performance.now() / 1000)} s: ${work}: ${ours.median.toPrecision(3)}, ratio ${ratio?.median.toPrecision(3) ?? '–'}`,
    );
};
const began = loadavg();
try {
  const { rows: started, idle } = await startingRows(home, root, extent);
  const served = await Served.start(join(home, 'data'));
  try {
    if (chosen('appending')) done(await appendRows(served, extent), served);
    if (chosen('appending')) done(await inProcessRows(served, extent), served);
    if (chosen('appending')) done(await manyRows(served, extent), served);
    // The sizes of the aims: a large operation among a million records of a thousand others.
    if (mode === 'long' && ['settling', 'single', 'reading'].some(chosen)) await fill(served, 1_000, 1_000);
    if (chosen('settling')) done(await settlingRows(served, extent), served);
    if (chosen('single')) done(await singleRows(served, extent), served);
    if (chosen('reading')) done(await readingRows(served, extent), served);
    if (chosen('verifying')) done(await verifyingRows(served, home, extent), served);
    done(started);
    done(await memoryRows(idle, served));
  } finally {
    await served.stop();
  }
  if (chosen('judging')) done(await judgingRows(extent));
  if (chosen('reporting')) done(await reportingRows(extent));
} finally {
  await rm(home, { recursive: true, force: true });
}

const [processor] = cpus();
const report = {
  measuredAt: new Date().toISOString(),
  mode,
  rounds: extent.rounds,
  machine: {
    processor: processor?.model ?? 'unknown',
    cores: cpus().length,
    memoryMB: Math.round(totalmem() / 2 ** 20),
    system: `${process.platform} ${process.arch}`,
    /** Of one minute, before and after: more than the cores means that others worked too. */
    load: [began[0], loadavg()[0]],
  },
  versions: { node: process.version, commit: commit() },
  rows,
};
await mkdir(join(out, '..'), { recursive: true });
await writeFile(out, `${JSON.stringify(report, null, 2)}\n`);
console.log(tableOf(rows));
console.log(`\n${rows.filter(({ reached }) => reached).length} of ${rows.length} aims reached; ${out}`);
process.exit();

function memoryText(served: Served): string {
  const { now, most } = served.memory();
  return `${now.toFixed(0)}, at the most ${most.toFixed(0)}`;
}

function commit(): string {
  try {
    return execFileSync('git', ['rev-parse', 'HEAD'], { cwd: root, encoding: 'utf8' }).trim();
  } catch {
    return 'unknown';
  }
}
