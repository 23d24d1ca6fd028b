import { afterEach, beforeEach, describe, expect, it } from '@jest/globals';
import { spawn } from 'node:child_process';
import { chmodSync, cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';

// The way in from a fresh clone, with an npm of our own making: it takes a second, counts how often it is asked, and
// leaves behind what an install leaves behind.
const bin = join(import.meta.dirname, '..', 'apps', 'api', 'bin');
const lockFile = JSON.stringify({ packages: { '': {}, 'node_modules/node': { version: '24.21.0' } } });

let root: string;
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'furrowmark-bootstrap-'));
  cpSync(bin, join(root, 'apps', 'api', 'bin'), { recursive: true });
  writeFileSync(join(root, 'package-lock.json'), lockFile);
  fakeNpm(0);
});
afterEach(() => rmSync(root, { recursive: true, force: true }));

function fakeNpm(exitCode: number): void {
  mkdirSync(join(root, 'path'), { recursive: true });
  const installed = `
    mkdir -p node_modules/.bin
    printf '#!/bin/sh\\necho "program $*"\\nexit 7\\n' > node_modules/.bin/node
    chmod +x node_modules/.bin/node
    cp package-lock.json node_modules/.package-lock.json`;
  const script = `#!/bin/sh\necho "$@" >> npm-calls\nsleep 1\n${exitCode === 0 ? installed : 'echo no network >&2'}\nexit ${exitCode}\n`;
  writeFileSync(join(root, 'path', 'npm'), script);
  chmodSync(join(root, 'path', 'npm'), 0o755);
}

function start(...args: string[]): Promise<{ code: number | null; out: string; err: string }> {
  // As from a plain terminal: not under this test's npm, and not in production.
  const outer = ['npm_execpath', 'npm_config_omit', 'NODE_ENV'];
  const env = Object.fromEntries(Object.entries(process.env).filter(([name]) => !outer.includes(name)));
  const PATH = `${join(root, 'path')}${delimiter}${process.env['PATH'] ?? ''}`;
  const child = spawn(process.execPath, [join(root, 'apps', 'api', 'bin', 'run.mjs'), ...args], {
    env: { ...env, PATH },
  });
  let out = '';
  let err = '';
  child.stdout.on('data', (chunk) => (out += String(chunk)));
  child.stderr.on('data', (chunk) => (err += String(chunk)));
  return new Promise((done) => child.on('close', (code) => done({ code, out, err })));
}

const npmCalls = (): string[] => readFileSync(join(root, 'npm-calls'), 'utf8').trim().split('\n');

describe('the way in from a fresh clone', () => {
  it('installs what the lock file names, hands over the verb, and ends as the program ends', async () => {
    const { code, out, err } = await start('calc', 'convert', '{}');
    expect(npmCalls()).toEqual(['ci --no-audit --no-fund --loglevel=error']);
    expect(out).toMatch(/^program .*main\.ts calc convert \{\}\n$/);
    expect(err).toContain('not installed yet; installing it now');
    expect(code).toBe(7);
  });

  it('installs nothing when everything is there', async () => {
    await start('help');
    const { err } = await start('help');
    expect(npmCalls()).toHaveLength(1);
    expect(err).toBe('');
  });

  it('installs again when the lock file asks for another version', async () => {
    await start('help');
    writeFileSync(join(root, 'package-lock.json'), lockFile.replace('24.21.0', '24.22.0'));
    const { err } = await start('help');
    expect(npmCalls()).toHaveLength(2);
    expect(err).toContain('node is installed as 24.21.0, wanted is 24.22.0');
  });

  it('lets only one of two starts install; the other waits and then runs too', async () => {
    const both = await Promise.all([start('one'), start('two')]);
    expect(npmCalls()).toHaveLength(1);
    expect(both.map((one) => one.code)).toEqual([7, 7]);
  });

  it('takes over from a start that was killed while it installed', async () => {
    mkdirSync(join(root, 'data'));
    // 2^22 is the most a Linux process id can be; no process has this one.
    writeFileSync(join(root, 'data', 'installing'), '4194305');
    const { code } = await start('help');
    expect(code).toBe(7);
    expect(existsSync(join(root, 'data', 'installing'))).toBe(false);
  });

  it('says in a sentence what to do when npm fails, and leaves no lock behind', async () => {
    fakeNpm(1);
    const { code, err } = await start('help');
    expect(code).toBe(69);
    expect(err).toContain('no network');
    expect(err).toContain('npm ci failed (its words are above): check the network');
    expect(existsSync(join(root, 'data', 'installing'))).toBe(false);
  });
});
