import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The checkout. */
export const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..', '..');
/** The Node that package-lock.json pins. */
export const pinnedNode = join(root, 'node_modules', '.bin', process.platform === 'win32' ? 'node.cmd' : 'node');
