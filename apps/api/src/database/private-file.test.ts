import { mkdtempSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from '@jest/globals';
import { privateFile } from './private-file.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'furrowmark-private-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

describe('a file with a secret', () => {
  it('made by many at once is one, whole for everybody, and leaves nothing beside it', async () => {
    const path = join(folder, 'deep', 'secret');
    const got = await Promise.all(
      Array.from({ length: 40 }, (_, i) => privateFile(path, () => String(i).repeat(50_000))),
    );
    expect(new Set(got).size).toBe(1);
    expect(got[0]?.length).toBeGreaterThanOrEqual(50_000);
    expect(readdirSync(join(folder, 'deep'))).toEqual(['secret']);
    expect(statSync(path).mode & 0o777).toBe(0o600);
  });

  it('that is there stays as it is', async () => {
    const path = join(folder, 'secret');
    writeFileSync(path, 'of old');
    expect(await privateFile(path, () => 'new')).toBe('of old');
  });
});
