import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The checkout. */
export const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..', '..');
/** The Node that package-lock.json pins. */
export const pinnedNode = join(root, 'node_modules', '.bin', process.platform === 'win32' ? 'node.cmd' : 'node');
/**
 * How the program runs: young objects get 4 MiB before they are looked through, not 16 of each kind, which takes 70 to
 * 100 MB off the process and nothing off its speed; old ones are looked through when the heap has grown by a fifth, not
 * by up to all of it, which takes 180 MB off the most that it has while much is recorded (docs/performance.md).
 */
export const nodeOptions = ['--max-semi-space-size=4', '--heap-growing-percent=20'];
