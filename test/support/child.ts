import { spawn, type ChildProcess } from 'node:child_process';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { readyCluster } from './cluster.ts';

/** A service running in a process of its own. */
export interface ChildService {
  readonly url: string;
  readonly token: string;
  readonly process: ChildProcess;
  /** The faults that it printed, the newest at the end. */
  readonly faults: readonly string[];
  /** Ends it and waits until it is gone; gives its exit code, null where a signal ended it. */
  end(signal: NodeJS.Signals): Promise<number | null>;
}

const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

/** A service's process on a data folder, as it starts: with its own database or that which an owner's address names. */
export async function launched(dataDir: string, databaseUrl = '', environment: NodeJS.ProcessEnv = {}) {
  if (databaseUrl === '') await readyCluster(dataDir);
  return spawn(
    process.execPath,
    ['--import', here('../../apps/api/register.mjs'), here('./serving.ts'), dataDir, databaseUrl],
    { stdio: ['ignore', 'pipe', 'inherit'], env: { ...process.env, ...environment } },
  );
}

/** Starts a service in a process of its own and waits until it answers. */
export async function startChild(
  dataDir: string,
  databaseUrl = '',
  environment: NodeJS.ProcessEnv = {},
): Promise<ChildService> {
  const child = await launched(dataDir, databaseUrl, environment);
  const gone = new Promise<number | null>((resolve) => child.once('exit', resolve));
  const lines = createInterface(child.stdout);
  const faults: string[] = [];
  lines.on('line', (line) => {
    if (line.includes('"level":50') && line.includes('A fault in the service')) faults.push(line);
  });
  const first = await Promise.race([
    new Promise<string>((resolve) => lines.once('line', resolve)),
    gone.then((code) => {
      throw new Error(`the service ended with ${code} before it answered`);
    }),
  ]);
  const { url, token } = JSON.parse(first);
  return {
    url,
    token,
    process: child,
    faults,
    end: (signal) => {
      child.kill(signal);
      return gone;
    },
  };
}
