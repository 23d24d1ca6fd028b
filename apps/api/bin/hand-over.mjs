// Starts the program itself under the pinned Node, passes signals on and ends as it ends.
import { spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { constants } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { nodeOptions, pinnedNode, root } from './places.mjs';

export function handOver(verb, args) {
  const register = pathToFileURL(join(root, 'apps', 'api', 'register.mjs')).href;
  const main = join(root, 'apps', 'api', 'src', 'commands', 'main.ts');
  const child = spawn(pinnedNode, [...nodeOptions, '--import', register, main, verb, ...args], {
    // The fourth channel tells the program when this process is gone, so that none is left behind.
    stdio: ['inherit', 'inherit', 'inherit', 'ipc'],
    env: { ...process.env, FURROWMARK_ROOT: root, FURROWMARK_HOME: process.env.FURROWMARK_HOME ?? root },
  });
  // A terminal sends its interrupt to both; passing it on would make it two.
  const interrupt = () => (process.stdin.isTTY ? undefined : child.kill('SIGINT'));
  process.on('SIGINT', interrupt);
  for (const signal of ['SIGTERM', 'SIGHUP']) process.on(signal, () => child.kill(signal));
  if (process.env.npm_lifecycle_event !== undefined) endWithNpm(child);
  child.on('error', (error) => {
    console.error(`furrowmark: the program could not be started: ${error.message}`);
    process.exit(70);
  });
  child.on('exit', (code, signal) =>
    process.exit(signal === null ? (code ?? 1) : 128 + (constants.signals[signal] ?? 0)),
  );
}

/** Npm ends, or its shell does, and neither tells us: that somebody above has gone is the only sign. */
function endWithNpm(child) {
  const parent = process.ppid;
  const npm = parentOf(parent);
  setInterval(() => {
    if (process.ppid !== parent || parentOf(parent) !== npm) child.kill('SIGTERM');
  }, 500).unref();
}

/** The parent of another process, where the system tells (Linux); else null. */
function parentOf(id) {
  try {
    const status = readFileSync(`/proc/${id}/stat`, 'utf8');
    return Number(status.slice(status.lastIndexOf(')') + 2).split(' ')[1]);
  } catch {
    return null;
  }
}
