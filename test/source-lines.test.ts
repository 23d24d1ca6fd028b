import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { expect, it } from '@jest/globals';

it('an error names the line of the source, though what runs was compiled from it', () => {
  const register = new URL('../apps/api/register.mjs', import.meta.url).href;
  const late = fileURLToPath(new URL('source-lines/late.ts', import.meta.url));
  const { stderr } = spawnSync(process.execPath, ['--import', register, late], { encoding: 'utf8' });
  expect(stderr).toMatch(/Error: here\n {4}at late \(file:.*late\.ts:7:9\)\n {4}at file:.*late\.ts:9:1/);
});
