// One install at a time: a file with the process id of whoever installs. It lies beside the data, not in
// node_modules, which an install removes first.
import { closeSync, mkdirSync, openSync, readFileSync, renameSync, rmSync, writeSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { root } from './places.mjs';

const lock = join(root, 'data', 'installing');

/** Runs `work` while no other start is installing. */
export async function withInstallLock(work) {
  mkdirSync(dirname(lock), { recursive: true });
  let told = false;
  while (!take()) {
    const holder = holderOf();
    if (holder !== null && !alive(holder)) {
      removeStale(holder);
      continue;
    }
    if (!told) console.error('furrowmark: another start is installing the dependencies; waiting for it …');
    told = true;
    await wait(500);
  }
  try {
    work();
  } finally {
    rmSync(lock, { force: true });
  }
}

function take() {
  try {
    const file = openSync(lock, 'wx');
    writeSync(file, String(process.pid));
    closeSync(file);
    return true;
  } catch (error) {
    if (error.code === 'EEXIST') return false;
    throw new Error(
      `${dirname(lock)} cannot be written to (${error.code}): the folder of the program must be writable.`,
    );
  }
}

/** The process that holds the lock; null while it has not written its id yet, or the lock is gone. */
function holderOf() {
  try {
    const id = Number(readFileSync(lock, 'utf8'));
    return Number.isInteger(id) && id > 0 ? id : null;
  } catch {
    return null;
  }
}

function alive(id) {
  try {
    process.kill(id, 0);
    return true;
  } catch (error) {
    return error.code === 'EPERM';
  }
}

/** Takes away what a killed start left. Renamed first: of two that find it, only one moves it. */
function removeStale(holder) {
  const aside = `${lock}.${process.pid}`;
  try {
    renameSync(lock, aside);
    if (Number(readFileSync(aside, 'utf8')) !== holder)
      renameSync(aside, lock); // not the one we looked at
    else rmSync(aside, { force: true });
  } catch {
    // somebody else was faster
  }
}
