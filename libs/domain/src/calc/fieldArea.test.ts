import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import checks from '../../../../test/checks/geodesy.json' with { type: 'json' };
import { isRefusal } from './calculation.ts';
import { fieldArea, polygonAreaM2 } from './fieldArea.ts';
import type { Position } from './ring.ts';

const square = (west: number, south: number, width: number, height: number): Position[] => [
  [west, south],
  [west + width, south],
  [west + width, south + height],
  [west, south + height],
  [west, south],
];
const ask = (coordinates: unknown) => fieldArea.run({ boundary: { type: 'Polygon', coordinates } });
const refusedAt = (coordinates: unknown) => {
  const made = ask(coordinates);
  return isRefusal(made) ? made.refused.errors[0]?.pointer : made;
};

/**
 * Independent of geodesics: the area of a small quadrangle between two parallels and two meridians of WGS 84, by the
 * closed formula of its zone (Snyder 1987, Map Projections, equation 3-12: area = b² Δλ/2 · [sin φ/(1 − e² sin² φ) +
 * artanh(e sin φ)/e]). Edges along a parallel differ from geodesics, for fields by parts in a million.
 */
function quadrangle(south: number, height: number, width: number): number {
  const [a, f] = [6378137, 1 / 298.257223563];
  const [b, e] = [a * (1 - f), Math.sqrt(f * (2 - f))];
  const zone = (latitude: number) => {
    const sin = Math.sin((latitude * Math.PI) / 180);
    return sin / (1 - (e * sin) ** 2) + Math.atanh(e * sin) / e;
  };
  return ((b * b * width * Math.PI) / 180 / 2) * (zone(south + height) - zone(south));
}

it('no ring at all has no area', () => {
  expect(polygonAreaM2([])).toBe(0);
});

describe('field area on the ellipsoid', () => {
  it.each(checks.polygons)(`$latLon: $areaM2 m² (${checks.source})`, ({ latLon, areaM2, tolerance }) => {
    const ring = latLon.map(([latitude = NaN, longitude = NaN]): Position => [longitude, latitude]);
    expect(Math.abs(polygonAreaM2([ring]) - areaM2)).toBeLessThanOrEqual(tolerance);
  });
  it('agrees with the closed formula for a quadrangle of parallels and meridians', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -60, max: 60 }),
        fc.integer({ min: -179, max: 178 }),
        fc.integer({ min: 1, max: 40 }),
        (south, west, size) => {
          const [w, h] = [size * 1e-4, size * 7e-5];
          const area = polygonAreaM2([square(west, south, w, h)]);
          expect(Math.abs(area / quadrangle(south, h, w) - 1)).toBeLessThan(1e-5);
        },
      ),
    );
  });
  it('is the same either way round and from any corner', () => {
    const ring = square(-74.2, 42.1, 0.002, 0.0016);
    const area = polygonAreaM2([ring]);
    expect(polygonAreaM2([[...ring].reverse()])).toBeCloseTo(area, 6);
    const corners = ring.slice(0, -1);
    const turned = [...corners.slice(2), ...corners.slice(0, 2)];
    expect(polygonAreaM2([[...turned, ...turned.slice(0, 1)]])).toBeCloseTo(area, 6);
  });
  it('a pond in the field is taken off', () => {
    const [field, pond] = [square(-74.2, 42.1, 0.002, 0.0016), square(-74.199, 42.1005, 0.0005, 0.0004)];
    const made = ask([field, pond]);
    const expected = polygonAreaM2([field]) - polygonAreaM2([[...pond].reverse()]);
    expect(made).toMatchObject({ area: { value: expect.closeTo(expected, 4), unit: 'm2' } });
  });
  it('a pond may touch the edge of the field from inside', () => {
    for (const [dx, dy] of [
      [0, 0.0005],
      [0.0015, 0.0005],
      [0.0005, 0],
      [0.0005, 0.0012],
    ] as const) {
      expect(ask([square(10, 50, 0.002, 0.0016), square(10 + dx, 50 + dy, 0.0005, 0.0004)])).toHaveProperty('area');
    }
  });
  it('two halves make the whole, also across the date line', () => {
    const whole = polygonAreaM2([
      square(179.999, -17, 0.002, 0.001).map(([x, y]): Position => [x > 180 ? x - 360 : x, y]),
    ]);
    const halves =
      polygonAreaM2([square(179.999, -17, 0.001, 0.001)]) + polygonAreaM2([square(-180, -17, 0.001, 0.001)]);
    expect(whole / halves).toBeCloseTo(1, 9);
  });
});

describe('boundaries that cannot be', () => {
  it('names the ring, or the position where the boundary crosses itself', () => {
    const ring = square(-74.2, 42.1, 0.002, 0.0016);
    expect(refusedAt([])).toBe('/boundary/coordinates');
    expect(refusedAt([ring.slice(0, -1)])).toBe('/boundary/coordinates/0/3');
    expect(refusedAt([ring.slice(0, 2)])).toBe('/boundary/coordinates/0');
    expect(refusedAt([[ring[0], ring[2], ring[1], ring[3], ring[0]]])).toBe('/boundary/coordinates/0/2');
    expect(
      refusedAt([
        [
          [1, 1],
          [1, 1],
          [1, 1],
          [1, 1],
        ],
      ]),
    ).toBe('/boundary/coordinates/0');
    expect(refusedAt([ring, square(-70, 42.1, 0.001, 0.001)])).toBe('/boundary/coordinates/1');
    expect(
      refusedAt([
        [
          [200, 1],
          [1, 1],
          [1, 2],
          [200, 1],
        ],
      ]),
    ).toBe('/boundary/coordinates/0/0');
    expect(
      refusedAt([
        [
          [42.1, -94.2],
          [42.1, -94],
          [42, -94],
          [42.1, -94.2],
        ],
      ]),
    ).toBe('/boundary/coordinates/0/0');
  });
  it('takes 1,000 positions and no more', () => {
    const circle = (n: number) => {
      const ring = Array.from({ length: n - 1 }, (_, i) => [
        10 + 0.01 * Math.cos((i * 2 * Math.PI) / (n - 1)),
        50 + 0.01 * Math.sin((i * 2 * Math.PI) / (n - 1)),
      ]);
      return [...ring, ring[0]];
    };
    expect(ask([circle(1000)])).toHaveProperty('area');
    expect(refusedAt([circle(1001)])).toBe('/boundary/coordinates');
  });
});
