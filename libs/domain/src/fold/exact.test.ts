import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { decimal } from '../quantity/decimal.ts';
import { exact, ratioOf, split, sum } from './exact.ts';

const weights = (...values: readonly number[]) => values.map((value) => exact(value));
const parts = (amount: number, ...values: readonly number[]) =>
  split(exact(amount), weights(...values)).map((part) => part.toFixed());

describe('an amount shared out', () => {
  it('in thirds is whole again to the last digit: the last share takes what the cut ones leave', () => {
    const third = `0.${'3'.repeat(24)}`;
    expect(parts(1, 1, 1, 1)).toEqual([third, third, `${third.slice(0, -1)}4`]);
  });
  it('leaves nothing to one who has no part in it, also where that one stands last', () => {
    expect(parts(10, 1, 0, 1)).toEqual(['5', '0', '5']);
    expect(parts(1, 1, 2, 0)).toEqual([`0.${'3'.repeat(24)}`, `0.${'6'.repeat(23)}7`, '0']);
    expect([parts(10, 0, 0), parts(10)]).toEqual([['0', '0'], []]);
  });
  it('adds up exactly whatever the weights, each share within the last digit of its proportion', () => {
    const weight = fc.integer({ min: 0, max: 1_000_000 }).map((n) => exact(n).div(1000));
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 1_000_000_000 }),
        fc.array(weight, { minLength: 1, maxLength: 12 }),
        (thousandths, by) => {
          const amount = exact(thousandths).div(1000);
          const all = sum(by);
          const shares = split(amount, by);
          expect(sum(shares).toFixed()).toBe(all.isZero() ? '0' : amount.toFixed());
          shares.forEach((share, i) => {
            const due = all.isZero() ? exact(0) : amount.times(by[i] ?? 0).div(all);
            expect(share.minus(due).abs().lt(decimal(1e-22))).toBe(true);
            expect(share.isNegative() && !share.isZero()).toBe(false);
          });
        },
      ),
    );
  });
});

describe('a proportion', () => {
  it('is cut to 24 places towards zero, never rounded up to more than there is', () => {
    expect(ratioOf(exact(2), exact(3)).toFixed()).toBe(`0.${'6'.repeat(24)}`);
    expect(ratioOf(exact(1), exact(8)).toFixed()).toBe('0.125');
  });
});
