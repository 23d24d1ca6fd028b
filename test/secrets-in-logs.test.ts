import { execFile } from 'node:child_process';
import { createHash } from 'node:crypto';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { describe, expect, it } from '@jest/globals';
import { temporaryFolder } from './support/folder.ts';

const root = fileURLToPath(new URL('..', import.meta.url));

describe('what the service prints about itself', () => {
  it('has no password, PIN, token, sign-in name, personal name, nor the hash of a secret, not even when it fails', async () => {
    const { stdout, stderr } = await promisify(execFile)(
      process.execPath,
      ['--import', './apps/api/register.mjs', 'test/support/talkative.ts', temporaryFolder('talkative')],
      { cwd: root, maxBuffer: 1 << 26 },
    );
    const told = JSON.parse(stderr.trim().split('\n').at(-1) ?? '');
    expect(told).toMatchObject({ signedIn: 201, byPin: 201, failed: [500, 500, 500] });
    // It did print, and the failures with their statements.
    expect(stdout).toContain('"path":"/api/v1/session"');
    expect(stdout).toMatch(/relation .*attempt.* does not exist/);
    expect(told.secrets.length).toBeGreaterThan(10);
    for (const secret of told.secrets) {
      const hash = createHash('sha256').update(secret).digest();
      const bytes = [Buffer.from(secret), hash].map((buffer) => [...buffer].join(','));
      for (const form of [
        secret,
        encodeURIComponent(secret),
        hash.toString('hex'),
        hash.toString('base64'),
        ...bytes,
      ]) {
        expect(stdout.includes(form) ? `printed: ${secret} as ${form}` : '').toBe('');
      }
    }
  }, 60_000);
});
