import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { ESLint } from 'eslint';
import { describe, expect, it } from '@jest/globals';
import { licenceFaults } from './scan/licences.mjs';
import { lockFaults } from './scan/lock.mjs';

const root = join(import.meta.dirname, '..');
const integrity = `sha512-${'A'.repeat(86)}==`;
const sound = { version: '1.0.0', integrity, license: 'MIT' };
const lockOf = (more: Record<string, object>) => ({ packages: { '': {}, 'node_modules/sound': sound, ...more } });

describe('what the scan finds', () => {
  it('nothing in a lock file whose packages are whole, under known licences and decided about', () => {
    expect(lockFaults(lockOf({}), { allowScripts: {} })).toEqual([]);
    expect(licenceFaults(lockOf({}))).toEqual([]);
  });

  it.each<[string, Record<string, object>, RegExp]>([
    ['content that nobody hashed', { 'node_modules/a': { ...sound, integrity: undefined } }, /no SHA-512/],
    ['a weaker hash', { 'node_modules/a': { ...sound, integrity: 'sha1-AAAA' } }, /no SHA-512/],
    [
      'a branch',
      { 'node_modules/a': { ...sound, resolved: 'git+ssh://git@example.org/a.git#main' } },
      /comes from git/,
    ],
    ['a script at install', { 'node_modules/a': { ...sound, hasInstallScript: true } }, /nobody has decided/],
    ['a range', { 'libs/x': { dependencies: { a: '^1.0.0' } } }, /takes a at “\^1\.0\.0”/],
  ])('%s', (_name, more, fault) => {
    expect(lockFaults(lockOf(more), { allowScripts: {} })).toEqual([expect.stringMatching(fault)]);
  });

  it('a licence that asks more than naming, or none; what only builds may have a few more', () => {
    const under = (license: string | undefined, dev = false) =>
      licenceFaults(lockOf({ 'node_modules/a': { ...sound, license, dev } })).length;
    expect([under('GPL-3.0-only'), under(undefined), under('MPL-2.0'), under('Apache-2.0 AND GPL-2.0')]).toEqual([
      1, 1, 1, 1,
    ]);
    expect([under('MPL-2.0', true), under('(MIT OR GPL-2.0)'), under('Apache-2.0 AND MIT')]).toEqual([0, 0, 0]);
  });

  it('a secret in a file, and says where without showing it', () => {
    const folder = mkdtempSync(join(tmpdir(), 'furrowmark-scan-'));
    const secret = `ghp_${'a1B2c3D4e5F6'.repeat(3)}`;
    writeFileSync(join(folder, 'settings.ts'), `export const token = '${secret}';\n`);
    const program = join(root, 'node_modules/secretlint/bin/secretlint.js');
    const args = ['--secretlintrc', join(root, '.secretlintrc.json'), '--no-glob', '--maskSecrets'];
    const { status, stdout } = spawnSync(process.execPath, [program, ...args, join(folder, 'settings.ts')], {
      encoding: 'utf8',
    });
    rmSync(folder, { recursive: true });
    expect(status).toBe(1);
    expect(stdout).toMatch(/GitHub/i);
    expect(stdout).not.toContain(secret);
  });

  it('a pattern whose time explodes, markup put in unescaped, code run from text', async () => {
    const [result] = await new ESLint({ cwd: root }).lintText(
      'export const slow = (text) => /^(a+)+$/.test(text);\nexport const put = (el, text) => (el.innerHTML = text);\nexport const run = (text) => eval(text);\n',
      { filePath: join(root, 'apps/api/src/not-there.mjs') },
    );
    const rules = result?.messages.map(({ ruleId }) => ruleId);
    expect(rules).toEqual(
      expect.arrayContaining([
        'regexp/no-super-linear-backtracking',
        'no-unsanitized/property',
        'security/detect-eval-with-expression',
      ]),
    );
  });
});
