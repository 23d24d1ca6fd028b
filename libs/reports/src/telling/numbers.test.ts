import { describe, expect, it } from '@jest/globals';
import { decimal } from '@furrowmark/domain';
import fc from 'fast-check';
import { apportioned, asWritten, grouped, numberCell, sumCell } from './numbers.ts';

describe('printed numbers', () => {
  it('are grouped by commas, with a true minus sign', () => {
    expect(grouped('1097840.25')).toBe('1,097,840.25');
    expect(grouped('-1234')).toBe('−1,234');
    expect(asWritten(0.1)).toBe('0.1');
    expect(asWritten(290)).toBe('290');
  });

  it('are rounded half away from zero, as a person would', () => {
    expect(numberCell(0.25, 1, '').text).toBe('0.3');
    expect(numberCell(1.005, 2, '').text).toBe('1.01');
    // 36.25 gal, converted to litres and back.
    expect(numberCell(decimal('36.249999999999999998'), 1, '').text).toBe('36.3');
  });

  it('carry as data exactly what is printed, and add up as printed', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 1e6, noNaN: true }), { maxLength: 40 }), (values) => {
        const cells = values.map((value) => numberCell(value, 1, ''));
        const tenths = cells.reduce((sum, { text }) => sum + Math.round(Number(text.replaceAll(',', '')) * 10), 0);
        expect(sumCell(cells, 1).text.replaceAll(',', '')).toBe((tenths / 10).toFixed(1));
      }),
    );
  });
});

describe('parts of a whole', () => {
  it('a third each prints as 33.4, 33.3, 33.3', () => {
    expect(apportioned([100 / 3, 100 / 3, 100 / 3], 1)).toEqual([33.4, 33.3, 33.3]);
  });

  it('add up to the whole as printed, none off by a whole last place', () => {
    const part = fc.integer({ min: 0, max: 1_000_000 }).map((n) => n / 997);
    fc.assert(
      fc.property(fc.array(part, { minLength: 1, maxLength: 40 }), fc.integer({ min: 0, max: 3 }), (parts, places) => {
        const unit = 10 ** places;
        const shown = apportioned(parts, places);
        const sum = shown.reduce((all, value) => all + Math.round(value * unit), 0);
        expect(Math.abs(sum - parts.reduce((a, b) => a + b, 0) * unit)).toBeLessThanOrEqual(0.500001);
        shown.forEach((value, index) => {
          expect(Math.abs(value - (parts[index] ?? 0)) * unit).toBeLessThan(1.000001);
        });
      }),
    );
  });
});
