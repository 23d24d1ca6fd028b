import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** How a command ended and what it said. */
export interface Said {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

const at = (path: string): string => fileURLToPath(new URL(`../../apps/api/${path}`, import.meta.url));

/** Runs a verb as a person types it, on what lies under `home`. */
export function furrowmark(home: string, ...args: readonly string[]): Promise<Said> {
  return furrowmarkOn(undefined, home, ...args);
}

/** The same on a database of one's own: `DATABASE_URL` is its owner's address. */
export function furrowmarkOn(databaseUrl: string | undefined, home: string, ...args: readonly string[]): Promise<Said> {
  const others = Object.entries(process.env).filter(([name]) => name !== 'DATABASE_URL');
  const env = Object.fromEntries(databaseUrl === undefined ? others : [...others, ['DATABASE_URL', databaseUrl]]);
  const child = spawn(process.execPath, ['--import', at('register.mjs'), at('src/commands/main.ts'), ...args], {
    env: { ...env, FURROWMARK_HOME: home },
    cwd: home,
  });
  let [out, err] = ['', ''];
  child.stdout.on('data', (chunk) => (out += String(chunk)));
  child.stderr.on('data', (chunk) => (err += String(chunk)));
  return new Promise((done) => child.on('close', (code) => done({ code, out, err })));
}
