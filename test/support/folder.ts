import { spawn } from 'node:child_process';
import { mkdirSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/**
 * A data folder under the system's temporary one that goes away with this process, its PostgreSQL stopped, even if the
 * test run is killed. The name is the same for every file that a jest worker runs, so they share one database.
 */
export function temporaryFolder(name: string): string {
  const folder = join(tmpdir(), `furrowmark-test-${process.pid}-${name}`);
  mkdirSync(folder, { recursive: true, mode: 0o755 });
  const tidy = `
    while kill -0 ${process.pid} 2>/dev/null; do sleep 1; done
    if [ -f "$1/pg/postmaster.pid" ]; then kill -QUIT "$(head -n 1 "$1/pg/postmaster.pid")"; sleep 1; fi
    rm -rf "$1"`;
  spawn('/bin/sh', ['-c', tidy, 'tidy', folder], { detached: true, stdio: 'ignore' }).unref();
  return folder;
}
