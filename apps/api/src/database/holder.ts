import { open, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { codeOf } from '../error-code.ts';

/** The data folder is served by another process. */
export class AlreadyServed extends Error {
  constructor(
    readonly pid: number,
    dataDir: string,
  ) {
    super(
      `The data folder ${dataDir} is already served by process ${pid}. Stop that one first, or choose another folder.`,
    );
  }
}

const file = (dataDir: string): string => join(dataDir, 'service.pid');

/** Claims a data folder for this process; gives what releases it. A claim left by a killed process counts for nothing. */
export async function claim(dataDir: string): Promise<() => Promise<void>> {
  const holder = await liveHolder(dataDir);
  if (holder !== null) throw new AlreadyServed(holder, dataDir);
  const mine = `${process.pid} ${await startOf(process.pid)}\n`;
  const fresh = `${file(dataDir)}.${process.pid}`;
  await writeFile(fresh, mine, { mode: 0o644 });
  const written = await open(fresh, 'r+');
  await written.sync();
  await written.close();
  await rename(fresh, file(dataDir));
  return async () => {
    if ((await readFile(file(dataDir), 'utf8').catch(() => '')) === mine) await rm(file(dataDir), { force: true });
  };
}

/** The process, other than this one, that serves the data folder; null where none does. */
export async function liveHolder(dataDir: string): Promise<number | null> {
  const [pid, start] = (await readFile(file(dataDir), 'utf8').catch(() => '')).trim().split(' ');
  const number = Number(pid);
  if (!Number.isInteger(number) || number <= 1 || number === process.pid) return null;
  try {
    process.kill(number, 0);
  } catch (error) {
    if (codeOf(error) !== 'EPERM') return null;
  }
  return (await startOf(number)) === start ? number : null;
}

/** When a process began, in the kernel's ticks: tells it from a later one that got the same number. `-` where unknown. */
async function startOf(pid: number): Promise<string> {
  const stat = await readFile(`/proc/${pid}/stat`, 'utf8').catch(() => '');
  return stat.slice(stat.lastIndexOf(')') + 2).split(' ')[19] ?? '-';
}
