// Installs what package-lock.json names, once, however many starts come at the same time.
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { withInstallLock } from './install-lock.mjs';
import { pinnedNode, root } from './places.mjs';

/** Installs where something is missing or of another version; throws with a sentence for the person at the keyboard. */
export async function installIfNeeded() {
  const major = Number(process.versions.node.split('.')[0]);
  if (major < 18) throw new Error(`Node 18 or later is needed to start; this is ${process.versions.node}.`);
  if (missing() === null) return;
  await withInstallLock(() => {
    const what = missing(); // another start may have installed it while we waited
    if (what === null) return;
    console.error(`furrowmark: ${what}; installing it now (npm ci, about 700 MB, one or two minutes) …`);
    npmCi();
    const still = missing();
    if (still !== null) throw new Error(`npm ci ended well, and yet ${still}. Remove node_modules and start again.`);
  });
}

function npmCi() {
  // Under `npm run`, npm says where it lies; otherwise it is looked for on the path.
  const own = process.env.npm_execpath;
  const [command, before] = own?.endsWith('.js') ? [process.execPath, [own]] : ['npm', []];
  const done = spawnSync(command, [...before, 'ci', '--no-audit', '--no-fund', '--loglevel=error'], {
    cwd: root,
    stdio: ['ignore', 2, 2], // what npm says is not this program's output
    shell: process.platform === 'win32' && command === 'npm',
  });
  if (done.error?.code === 'ENOENT')
    throw new Error('npm was not found: install Node.js together with npm, then start again.');
  if (done.error) throw new Error(`npm could not be started: ${done.error.message}`);
  if (done.status !== 0)
    throw new Error(
      'npm ci failed (its words are above): check the network and the space on the disk, then start again.',
    );
}

/** What keeps the program from starting, in words; null when everything is as the lock file says. */
function missing() {
  const wanted = packages('package-lock.json');
  if (wanted === null) return 'package-lock.json cannot be read';
  const present = packages('node_modules/.package-lock.json');
  if (present === null) return 'the dependencies are not installed yet';
  const withoutDev =
    process.env.NODE_ENV === 'production' || (process.env.npm_config_omit ?? '').split(/\s+/).includes('dev');
  for (const [path, entry] of Object.entries(wanted)) {
    const workspace = !path.includes('node_modules/');
    if (workspace || entry.optional || entry.devOptional || (entry.dev && withoutDev)) continue;
    const there = present[path];
    const name = path.slice(path.lastIndexOf('node_modules/') + 'node_modules/'.length);
    if (there === undefined) return `${name} is not installed yet`;
    if (there.version !== entry.version) return `${name} is installed as ${there.version}, wanted is ${entry.version}`;
  }
  return existsSync(pinnedNode) ? null : 'the pinned Node is not installed yet';
}

function packages(file) {
  try {
    return JSON.parse(readFileSync(join(root, file), 'utf8')).packages ?? null;
  } catch {
    return null;
  }
}
