import { readFileSync } from 'node:fs';
import { describe, expect, it } from '@jest/globals';
import { describeTypes } from './describe.ts';

describe('docs/record-format.md', () => {
  const page = readFileSync(new URL('../../../../docs/record-format.md', import.meta.url), 'utf8');
  it('lists the record types as the schemas have them (renew with: node --import ./apps/api/register.mjs docs/record-format.renew.ts)', () => {
    expect(page.slice(page.indexOf('### `'))).toBe(describeTypes());
  });
  it('names members as the corpus writes them', () => {
    expect(describeTypes()).toContain('- draws: [{ drawId: id } or { batchId: id, volume: volume or household measure');
    expect(describeTypes()).toContain('- dissolvedOxygen: mass concentration reading');
  });
});
