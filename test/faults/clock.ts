import { globSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/** A clock of its own for a process and its children, which can be set while they run (libfaketime, Debian's `faketime`). */
export interface WrongClock {
  readonly environment: NodeJS.ProcessEnv;
  /** Sets it so many seconds ahead of the machine's, or behind it; it is noticed within a second. */
  set(ahead: number): void;
}

export function wrongClock(folder: string): WrongClock {
  const [library] = globSync('/usr/lib/*/faketime/libfaketimeMT.so.1');
  if (library === undefined) throw new Error('no clock can be set wrong here: apt-get install faketime');
  const file = join(folder, 'clock');
  const set = (ahead: number): void => writeFileSync(file, `${ahead < 0 ? '-' : '+'}${Math.abs(ahead)}`);
  set(0);
  return {
    environment: {
      LD_PRELOAD: library,
      FAKETIME_TIMESTAMP_FILE: file,
      FAKETIME_CACHE_DURATION: '1',
      // Timers go by the monotonic clock, which no machine sets.
      FAKETIME_DONT_FAKE_MONOTONIC: '1',
      DONT_FAKE_MONOTONIC: '1',
    },
    set,
  };
}
