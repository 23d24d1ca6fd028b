// `npm run bench`: installs what is missing, then measures under the pinned Node. Options pass through (--quick, --long).
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { installIfNeeded } from '../../apps/api/bin/install.mjs';
import { pinnedNode, root } from '../../apps/api/bin/places.mjs';

await installIfNeeded();
const register = pathToFileURL(join(root, 'apps', 'api', 'register.mjs')).href;
const main = join(root, 'test', 'bench', 'main.ts');
const args = ['--expose-gc', '--import', register, main, ...process.argv.slice(2)];
process.exit(spawnSync(pinnedNode, args, { cwd: root, stdio: 'inherit' }).status ?? 1);
