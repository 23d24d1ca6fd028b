import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { atMost, type Role } from './roles.ts';

const rising: readonly Role[] = ['inspector', 'recorder', 'reviewer', 'manager'];
const role = fc.constantFrom(...rising);

describe('a role that a token carries at most', () => {
  it('is never more than the person has, nor more than the token carries', () => {
    fc.assert(
      fc.property(role, role, (own, most) => {
        const got = rising.indexOf(atMost(own, most));
        expect(got).toBe(Math.min(rising.indexOf(own), rising.indexOf(most)));
      }),
    );
  });

  it('is the person’s own where the token sets no bound', () => {
    for (const own of rising) expect(atMost(own, null)).toBe(own);
  });
});
