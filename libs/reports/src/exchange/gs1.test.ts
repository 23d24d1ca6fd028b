import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import checks from '../../../../test/checks/gs1.json' with { type: 'json' };
import { gs1CheckDigit, gs1Fault, lotLink } from './gs1.ts';

const digits = (length: number): fc.Arbitrary<string> =>
  fc.array(fc.integer({ min: 0, max: 9 }), { minLength: length, maxLength: length }).map((each) => each.join(''));

describe('the check digit of a GS1 key', () => {
  // GS1's own pages on the check digit; see test/checks/gs1.json.
  it.each(checks.examples)('of %s is %s, as GS1 prints it', (key, digit) => {
    expect(String(gs1CheckDigit(String(key)))).toBe(digit);
  });

  it('finds every single digit that was mistyped', () => {
    fc.assert(
      fc.property(digits(12), fc.nat(12), fc.integer({ min: 1, max: 9 }), (body, place, by) => {
        const key = body + String(gs1CheckDigit(body));
        const wrong = [...key].map((digit, i) => (i === place ? String((Number(digit) + by) % 10) : digit)).join('');
        expect(gs1Fault('gtin', key)).toBeNull();
        expect(gs1Fault('gtin', wrong)).toMatch(/check digit/);
      }),
    );
  });

  it('a place has 13 digits, a trade item 8, 12, 13 or 14', () => {
    const gln = `629104150021${gs1CheckDigit('629104150021')}`;
    expect(gs1Fault('gln', gln)).toBeNull();
    expect(gs1Fault('gln', `0${gln}`)).toMatch(/must have 13 digits; this has 14/);
    expect(gs1Fault('gtin', gln.slice(3))).toMatch(/must have 8, 12, 13, 14 digits/);
    expect(gs1Fault('gln', '62910415002l3')).toBe('must be digits only');
  });

  it('a lot code that fits no GS1 label gives no link', () => {
    expect(lotLink('6291041500213', 'H-0312/a')).toBe('https://id.gs1.org/01/06291041500213/10/H-0312%2Fa');
    expect(lotLink('6291041500213', 'Möhren 3')).toBeNull();
    expect(lotLink('6291041500213', 'x'.repeat(21))).toBeNull();
  });
});
