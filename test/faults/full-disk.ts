import { execFileSync } from 'node:child_process';
import { closeSync, openSync, rmSync, statfsSync, writeSync } from 'node:fs';
import { join } from 'node:path';

/** A folder that is a small disk of its own. */
export interface SmallDisk {
  /** Leaves so many bytes free. */
  fill(leaving: number): void;
  /** Takes away what filled it. */
  clear(): void;
  remove(): void;
}

/** Makes the folder a file system of so many mebibytes; a sentence why not where the system does not allow it. */
export function smallDisk(folder: string, mebibytes: number): SmallDisk | string {
  try {
    execFileSync('mount', ['-t', 'tmpfs', '-o', `size=${mebibytes}m,mode=755`, 'tmpfs', folder], { stdio: 'pipe' });
  } catch (error) {
    return `a small file system cannot be mounted here (root may): ${error instanceof Error ? error.message : String(error)}`;
  }
  const ballast = join(folder, 'ballast');
  return {
    fill: (leaving) => {
      const { bavail, bsize } = statfsSync(folder);
      const piece = Buffer.alloc(1024 * 1024, 1);
      const file = openSync(ballast, 'a');
      for (let left = bavail * bsize - leaving; left > 0; left -= piece.length) {
        writeSync(file, piece, 0, Math.min(left, piece.length));
      }
      closeSync(file);
    },
    clear: () => rmSync(ballast, { force: true }),
    remove: () => execFileSync('umount', ['-l', folder]),
  };
}
