// `npm run scan`: what can be found out about the sources and what they depend on without running them. What is checked,
// and what was found and left, stands in docs/security.md. The last line says how much held.
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { installIfNeeded } from '../../apps/api/bin/install.mjs';
import { pinnedNode, root } from '../../apps/api/bin/places.mjs';
import { licenceFaults } from './licences.mjs';
import { lockFaults } from './lock.mjs';

await installIfNeeded();
const read = (name) => JSON.parse(readFileSync(join(root, name), 'utf8'));
const run = (program, ...args) =>
  spawnSync(pinnedNode, [join(root, 'node_modules', program), ...args], { cwd: root, stdio: 'inherit' }).status === 0;
let held = 0;
let failed = 0;
const check = (name, faults) => {
  for (const fault of faults) console.error(`${name}: ${fault}`);
  console.log(`${name}: ${faults.length === 0 ? 'held' : `${faults.length} faults`}`);
  if (faults.length === 0) held += 1;
  else failed += 1;
};

const lock = read('package-lock.json');
check('lock file', lockFaults(lock, read('package.json')));
check('licences', licenceFaults(lock));
const files = spawnSync('git', ['ls-files', '--cached', '-z', '--deduplicate'], { cwd: root, encoding: 'utf8' });
const named = files.stdout
  .split('\0')
  .filter((name) => /\.(ts|tsx|mjs|js|json|md|yml|html|css|py|go|sh)$|run$/.test(name));
const secrets =
  named.length > 0 &&
  run(
    'secretlint/bin/secretlint.js',
    '--no-glob',
    '--maskSecrets',
    ...named.filter((name) => name !== 'package-lock.json'),
  );
check('secrets', secrets ? [] : ['a file that is kept holds what looks like a secret, or none could be looked at']);
advisories();
console.log(`scan: ${held} held, ${failed} failed`);
process.exit(failed === 0 ? 0 : 1);

/** Known weaknesses, where the registry answers the question. Where it does not, that is said and counts neither way. */
function advisories() {
  const asked = spawnSync('npm', ['audit', '--omit=dev', '--audit-level=high', '--json'], {
    cwd: root,
    encoding: 'utf8',
    timeout: 60_000,
  });
  let answer;
  try {
    answer = JSON.parse(asked.stdout);
  } catch {
    answer = null;
  }
  const found = answer?.metadata?.vulnerabilities;
  if (found === undefined) {
    console.error('advisories: NOT CHECKED, the registry does not answer (npm audit). Ask again where it does.');
    return;
  }
  check('advisories', found.high + found.critical > 0 ? [`${found.high} high, ${found.critical} critical`] : []);
}
