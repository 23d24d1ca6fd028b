import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { boundaryIn, cornersIn, exchanged, outlineIn, ringsIn } from './corners.ts';

const first = (text: string) => ringsIn(text)?.[0] ?? [];

describe('an outline written as figures', () => {
  it('is closed by itself', () => {
    expect(ringsIn('-74.21, 42.09\n-74.20 42.09\n-74.20;42.10\n')).toEqual([
      [
        [-74.21, 42.09],
        [-74.2, 42.09],
        [-74.2, 42.1],
        [-74.21, 42.09],
      ],
    ]);
  });
  it('that is closed stays as it is', () => {
    const text = '-74.21, 42.09\n-74.20 42.09\n-74.20;42.10';
    expect(ringsIn(`${text}\n-74.21 42.09`)).toEqual(ringsIn(text));
  });
  it('has a hole after an empty line', () => {
    const rings = ringsIn('0 0\n0 9\n9 9\n \n1 4\n2 7\n4 7');
    expect(rings?.map((ring) => ring.length)).toEqual([4, 4]);
  });
  it('with the latitude first is noticed', () => {
    expect(exchanged(first('42.09, -74.21\n42.09 -74.20\n42.10 -74.20'))).toBe(true);
    expect(exchanged(first('-74.21, 42.09\n-74.20 42.09\n-74.20;42.10'))).toBe(false);
    // Fairbanks, the northernmost fields of Alaska that are farmed at any size, lies at 64.8° (from memory).
    expect(exchanged(first('-147.7 64.8\n-147.6 64.8\n-147.6 64.9'))).toBe(false);
  });
  it.each(['', '1,2\n3,4', '1,2\n3,4\nfive,6', '1,2\n3,4\n5,6\n\n7,8'])('%j is none', (text) => {
    expect(ringsIn(text)).toBeNull();
  });
  it('half drawn has the corners that there are', () => {
    expect(cornersIn('1,2\n3,4')).toEqual([[[1, 2], [3, 4]]]); // prettier-ignore
    expect(cornersIn('')).toEqual([]);
    expect(cornersIn('1,2\n3,4\nfive,6')).toBeNull();
  });
  it('and the record’s boundary are one and the same, there and back', () => {
    const degree = (most: number) => fc.double({ min: -most, max: most, noNaN: true });
    const ring = fc
      .uniqueArray(fc.tuple(degree(180), degree(66)), { minLength: 3, maxLength: 8, selector: String })
      .map((corners) => [...corners, ...corners.slice(0, 1)].map((each) => each.map((n) => (n === 0 ? 0 : n))));
    fc.assert(
      fc.property(fc.array(ring, { minLength: 1, maxLength: 3 }), (coordinates) => {
        const boundary = { type: 'Polygon', coordinates };
        expect(boundaryIn(outlineIn(boundary))).toEqual(boundary);
      }),
    );
  });
});
