import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { base64, leafHash, signCheckpoint, signerFromSeed, utf8 } from '@furrowmark/log';

// The log library bundled as the web app bundles it, and run where there is no Node: an empty context with no more
// than what every browser has.
const root = new URL('..', import.meta.url).pathname;
let folder = '';
let bundle = '';

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'log-'));
  const build = `
    import { build } from 'vite';
    await build({
      configFile: false, logLevel: 'error', root: ${JSON.stringify(root)},
      resolve: { conditions: ['source', 'module', 'browser', 'production'] },
      build: { outDir: ${JSON.stringify(folder)}, emptyOutDir: false, copyPublicDir: false,
        lib: { entry: ${JSON.stringify(join(root, 'libs/log/src/index.ts'))}, formats: ['iife'], name: 'log', fileName: () => 'log.js' } },
    });`;
  const script = join(root, 'apps', 'verify', `bundle-${process.pid}.mjs`);
  writeFileSync(script, build);
  try {
    execFileSync(process.execPath, [script], { cwd: root, stdio: ['ignore', 'ignore', 'inherit'] });
  } finally {
    rmSync(script);
  }
  bundle = readFileSync(join(folder, 'log.js'), 'utf8');
}, 60_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('the log library in a browser', () => {
  it('asks for nothing of Node, and gives the same hashes, signatures and verdicts', () => {
    expect(bundle).not.toMatch(/node:|require\(/);
    const page = `
      const vm = require('node:vm');
      const context = vm.createContext({ TextEncoder, TextDecoder, atob, btoa });
      const answer = vm.runInContext(require('node:fs').readFileSync(process.argv[1], 'utf8') + \`;
        const signer = log.signerFromSeed('log', new Uint8Array(32).fill(1));
        const leaf = log.leafHash(log.canonicalBytes({ b: 1, a: 'dépôt' }));
        const note = log.signCheckpoint({ origin: 'log', size: 1, root: leaf }, [signer]);
        JSON.stringify([log.base64(leaf), note, log.openCheckpoint(note, [signer.key]).ok])\`, context);
      process.stdout.write(answer);`;
    const out = execFileSync(process.execPath, ['-e', page, join(folder, 'log.js')], { encoding: 'utf8' });
    const leaf = leafHash(utf8('{"a":"dépôt","b":1}'));
    const note = signCheckpoint({ origin: 'log', size: 1, root: leaf }, [
      signerFromSeed('log', new Uint8Array(32).fill(1)),
    ]);
    expect(JSON.parse(out)).toEqual([base64(leaf), note, true]);
  });
});
