import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { setTimeout as pause } from 'node:timers/promises';
import { nodeOptions } from '../../../apps/api/bin/places.mjs';
import { alone, type Extent, type Row } from '../measure.ts';
import { memoryOf } from '../served.ts';

/** From the first instruction of the program to a 200 of /readyz, the database's folder being there. Gives memory too. */
export async function startingRows(
  home: string,
  root: string,
  { mode, rounds }: Extent,
): Promise<{ rows: Row[]; idle: number }> {
  let idle = 0;
  const took = await alone(mode === 'quick' ? 1 : Math.min(rounds, 3), async () => {
    const start = performance.now();
    const program = [join(root, 'apps/api/register.mjs'), join(root, 'apps/api/src/commands/main.ts')] as const;
    const child = spawn(process.execPath, [...nodeOptions, '--import', program[0], program[1], 'serve'], {
      stdio: ['ignore', 'ignore', 'pipe', 'ipc'],
      env: { ...process.env, FURROWMARK_HOME: home, FURROWMARK_ROOT: root, PORT: '0', DATABASE_URL: '' },
    });
    const gone = once(child, 'exit');
    try {
      const url = await new Promise<string>((found, failed) => {
        if (child.stderr !== null)
          createInterface(child.stderr).on('line', (line) => {
            const answers = /http:\S+/.exec(line)?.[0];
            if (answers !== undefined) found(answers);
          });
        child.once('exit', (code) => failed(new Error(`the service ended with ${code}`)));
      });
      while ((await fetch(`${url}/readyz`)).status !== 200) await pause(20);
      const ready = performance.now() - start;
      await pause(mode === 'quick' ? 0 : 3_000);
      idle = memoryOf(child.pid ?? 0).now;
      return ready;
    } finally {
      child.kill('SIGTERM');
      await gone;
    }
  });
  const row: Row = {
    work: 'cold start until ready, embedded database, after the first time',
    ...{ beside: null, peer: null, ratio: null, unit: 'ms', ours: took },
    aim: '< 5,000',
    reached: took.median < 5_000,
    remark: 'run from source: compiling is in it',
  };
  return { rows: [row], idle };
}
