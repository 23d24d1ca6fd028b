import { describe, expect, it } from '@jest/globals';
import { unitIn } from './columns.ts';

describe('the unit that a header names', () => {
  it.each([
    ['Temp (°F)', '°F'],
    ['DO [mg/L]', 'mg/L'],
    ['DO, mg/L ', 'mg/L'],
    ['Quantity ( lb )', 'lb'],
    ['Lot', null],
  ])('%s: %s', (header, unit) => {
    expect(unitIn(header)).toBe(unit);
  });

  it('is not looked for in a header that is none: a hundred thousand brackets or blanks are told at once', () => {
    const before = process.cpuUsage();
    for (const sign of ['(', ',', ', ', ' ']) expect(unitIn(sign.repeat(100_000))).toBeNull();
    const { user, system } = process.cpuUsage(before);
    // Without the limit each of them is gone through again from each place.
    expect((user + system) / 1000).toBeLessThan(1_000);
  });
});
