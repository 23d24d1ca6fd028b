import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { fitting, placeTexts, type Mark } from './marks.ts';

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
