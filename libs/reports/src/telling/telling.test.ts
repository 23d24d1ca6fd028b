import { describe, expect, it } from '@jest/globals';
import { unitName } from './telling.ts';

describe('a unit as people write it', () => {
  it.each([
    ['[gal_us]', 'gal'],
    ['{bag}', 'bag'],
    ['{bag}/d', 'bag/d'],
    ['kg', 'kg'],
  ])('%s is written %s: braces are UCUM’s, not the reader’s', (code, written) => {
    expect(unitName(code)).toBe(written);
  });
});
