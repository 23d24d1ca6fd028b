// Builds the web app once, where it was never built or something it is made of has changed since. A service without it
// still answers: this never stops the start.
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, renameSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { pinnedNode, root } from './places.mjs';

const web = join(root, 'apps', 'web');
const vite = join(root, 'node_modules', 'vite', 'bin', 'vite.js');
const madeOf = ['src', 'public', 'index.html', 'vite.config.ts', 'package.json'].map((name) => join(web, name));

export function buildWebIfNeeded() {
  // A production install has no builder: there the image brought the built app along.
  if (!existsSync(vite) || !existsSync(web)) return;
  const built = timeOf(join(web, 'dist', 'index.html'));
  const sources = [...madeOf, ...['domain', 'log', 'reports', 'rules'].map((lib) => join(root, 'libs', lib, 'src'))];
  if (built > 0 && newest(sources) <= built) return;
  console.error('Building the web app …');
  // Beside the old one and then exchanged, so that two starts at once do not build into one folder.
  const beside = join(root, 'node_modules', '.cache', `web-${process.pid}`);
  const done = spawnSync(pinnedNode, [vite, 'build', '--outDir', beside, '--emptyOutDir', '--logLevel', 'error'], {
    cwd: web,
    // Whatever starts it: a build made under a test runner's setting would carry React's slow and large development parts.
    env: { ...process.env, NODE_ENV: 'production' },
    stdio: ['ignore', 2, 2],
  });
  if (done.status !== 0) {
    console.error('The web app could not be built (the words above say why); the service starts without the change.');
    rmSync(beside, { recursive: true, force: true });
    return;
  }
  const before = `${beside}-before`;
  try {
    if (existsSync(join(web, 'dist'))) renameSync(join(web, 'dist'), before);
    renameSync(beside, join(web, 'dist'));
  } catch {
    // Another start exchanged it first.
  }
  for (const rest of [before, beside]) rmSync(rest, { recursive: true, force: true });
}

function newest(paths) {
  let time = 0;
  for (const path of paths) {
    const stat = statSync(path, { throwIfNoEntry: false });
    if (stat === undefined) continue;
    time = Math.max(time, stat.mtimeMs);
    if (stat.isDirectory()) time = Math.max(time, newest(readdirSync(path).map((name) => join(path, name))));
  }
  return time;
}

const timeOf = (path) => statSync(path, { throwIfNoEntry: false })?.mtimeMs ?? 0;
