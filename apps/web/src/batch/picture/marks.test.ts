import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { dayText } from '../../clock/text.ts';
import { timeAxis } from '../../picture/axis.ts';
import { fitting, placeDays, placeTexts, type Mark } from './marks.ts';

const mark = (label: string, shorter: readonly string[]): Mark => ({
  ...{ recordId: 'r', at: 0, row: 'out', shape: 'drawn', label, shorter },
});

describe('texts under their marks', () => {
  it('keep inside the picture and apart, wherever the marks are', () => {
    const item = fc.record({ at: fc.double({ min: 64, max: 350, noNaN: true }), text: fc.string({ maxLength: 35 }) });
    fc.assert(
      fc.property(fc.array(item, { maxLength: 12 }), (items) => {
        const placed = placeTexts(
          items,
          ({ at }) => at,
          ({ text }) => text,
          [64, 350],
          3,
        ).map(({ item: { text }, x, anchor, line }) => {
          const width = text.length * 7.2;
          const from = anchor === 'start' ? x : anchor === 'end' ? x - width : x - width / 2;
          return { line, from, to: from + width };
        });
        for (const one of placed) {
          expect(one.from).toBeGreaterThanOrEqual(64);
          expect(one.to).toBeLessThanOrEqual(350);
          const beside = placed.filter((other) => other !== one && other.line === one.line);
          expect(beside.every(({ from, to }) => from >= one.to || to <= one.from)).toBe(true);
        }
      }),
    );
  });
  it('say less where there is no room for all', () => {
    const draw = mark('112 gal → North 1 → North 2 → Tunnel A', ['112 gal → North 1 → …', '112 gal']);
    expect(fitting(draw, [0, 900])).toBe('112 gal → North 1 → North 2 → Tunnel A');
    expect(fitting(draw, [64, 342])).toBe('112 gal → North 1 → …');
    expect(fitting(draw, [64, 164])).toBe('112 gal');
  });
});

describe('the days over the axis', () => {
  const zone = 'America/New_York';
  const spanish = (at: number): string => dayText(at, zone, 'es');
  it('keep off each other and inside the picture on a phone, and say less rather than be left out', () => {
    const begin = Date.parse('2026-08-11T05:25:00-04:00');
    const days = fc.integer({ min: 4, max: 70 });
    const width = fc.integer({ min: 200, max: 900 });
    fc.assert(
      fc.property(days, width, (hours, right) => {
        const axis = timeAxis(begin, begin + hours * 3_600_000, 64, right, -4 * 3_600_000, 74);
        const boxes = placeDays(axis, spanish).map(({ item, x, anchor }) => {
          const wide = item.text.length * 7.2;
          const from = anchor === 'start' ? x : anchor === 'end' ? x - wide : x - wide / 2;
          return [from, from + wide] as const;
        });
        for (const [i, [from, to]] of boxes.entries()) {
          expect(from).toBeGreaterThanOrEqual(64);
          expect(to).toBeLessThanOrEqual(right);
          expect(boxes.every(([a, b], k) => k === i || a >= to || b <= from)).toBe(true);
        }
      }),
    );
    const phone = timeAxis(begin, begin + 27 * 3_600_000, 64, 292, -4 * 3_600_000, 74);
    expect(placeDays(phone, spanish).map(({ item }) => item.text)).toEqual(['11 de ago', '12 de ago']);
  });
});
