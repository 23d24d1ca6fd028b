import { describe, expect, it } from '@jest/globals';
import { decimal, decimalIn } from '@furrowmark/domain';
import checks from '../../../../../test/checks/unit-codes.json' with { type: 'json' };
import { amountOf, uneceCodes } from './unit-codes.ts';

/** `3,785 412 x 10⁻³ m³` as a number and its unit. */
function factor(text: string): { value: number; unit: string } {
  const [, figure, exponent, unit = ''] =
    /^([\d, ]+)?(?:x )?(?:10([⁻⁰¹²³⁴-⁹]*) )?(m³|kg)$/u.exec(text.replace(/10 ?(m³|kg)$/, '10¹ $1')) ?? [];
  const power = [...(exponent ?? '')].map((each) => (each === '⁻' ? '-' : '⁰¹²³⁴⁵⁶⁷⁸⁹'.indexOf(each))).join('');
  const stated = figure === undefined ? 1 : Number(figure.replaceAll(' ', '').replace(',', '.'));
  return { value: stated * 10 ** Number(power || 0), unit: unit === 'm³' ? 'm3' : 'kg' };
}

describe('units in EPCIS', () => {
  // UNECE Recommendation 20, see test/checks/unit-codes.json.
  it.each(Object.entries(uneceCodes))('%s is %s: worth the same as Recommendation 20 says', (unit, code) => {
    const listed = checks.units.find((each) => each.code === code);
    const expected = factor(listed?.factor ?? '');
    const own = decimalIn({ value: 1, unit }, expected.unit)?.toNumber() ?? NaN;
    // The list prints seven digits.
    expect(Math.abs(own / expected.value - 1)).toBeLessThan(2e-6);
  });

  it('a unit without a code becomes litres or kilograms, a count has none', () => {
    expect(amountOf(decimal(2), 'hL')).toEqual({ quantity: 200, uom: 'LTR' });
    expect(amountOf(decimal(12), '{bunch}')).toEqual({ quantity: 12 });
    expect(amountOf(decimal(12), '[degF]')).toBeNull();
  });
});
