import { describe, expect, it } from '@jest/globals';
import geographiclib from 'geographiclib-geodesic';
import fc from 'fast-check';
import { centreOf, metresBetween, rightHanded, type Boundary } from './field-geometry.ts';

const square = (west: number, south: number, size: number): Boundary => ({
  type: 'Polygon',
  coordinates: [
    [
      [west, south],
      [west + size, south],
      [west + size, south + size],
      [west, south + size],
      [west, south],
    ],
  ],
});
const hole = [
  [-75.9995, 42.0005],
  [-75.9995, 42.0008],
  [-75.9992, 42.0008],
  [-75.9992, 42.0005],
  [-75.9995, 42.0005],
];

/** The area that a ring encloses, above 0 where it runs counterclockwise, by the reference library on the ellipsoid. */
function signedArea(ring: readonly (readonly number[])[]): number {
  const polygon = geographiclib.Geodesic.WGS84.Polygon(false);
  for (const [longitude = 0, latitude = 0] of ring.slice(0, -1)) polygon.AddPoint(latitude, longitude);
  return polygon.Compute(false, true).area ?? NaN;
}

describe('the outline of a field', () => {
  it('runs counterclockwise, its holes clockwise, whichever way round they were written (RFC 7946, section 3.1.6)', () => {
    const corner = fc.record({
      west: fc.double({ min: -179.9, max: 179.8, noNaN: true }),
      south: fc.double({ min: -80, max: 80, noNaN: true }),
    });
    fc.assert(
      fc.property(
        corner,
        fc.double({ min: 0.0002, max: 0.05, noNaN: true }),
        fc.boolean(),
        ({ west, south }, size, turned) => {
          const written = square(west, south, size);
          const given: Boundary = turned
            ? { ...written, coordinates: written.coordinates.map((ring) => ring.toReversed()) }
            : written;
          const [outline = []] = rightHanded(given).coordinates;
          expect(signedArea(outline)).toBeGreaterThan(0);
        },
      ),
    );
    const withHole = {
      ...square(-76, 42, 0.001),
      coordinates: [...square(-76, 42, 0.001).coordinates, hole.toReversed()],
    };
    const [, inner = []] = rightHanded(withHole).coordinates;
    expect(signedArea(inner)).toBeLessThan(0);
  });

  it('has its middle where the halves balance', () => {
    expect(centreOf(square(-76, 42, 0.002))?.map((each) => Number(each.toFixed(9)))).toEqual([-75.999, 42.001]);
    // Half of the square: a triangle's centroid lies a third of the way from each side.
    const triangle: Boundary = {
      type: 'Polygon',
      coordinates: [
        [
          [0, 0],
          [0.003, 0],
          [0, 0.003],
          [0, 0],
        ],
      ],
    };
    expect(centreOf(triangle)?.map((each) => Number(each.toFixed(9)))).toEqual([0.001, 0.001]);
    expect(
      centreOf({
        type: 'Polygon',
        coordinates: [
          [
            [1, 1],
            [2, 2],
            [1, 1],
            [1, 1],
          ],
        ],
      }),
    ).toBeNull();
    // On the date line: its middle is the line itself.
    const across: Boundary = {
      type: 'Polygon',
      coordinates: [
        [
          [179.99, 0],
          [-179.99, 0],
          [-179.99, 0.02],
          [179.99, 0.02],
          [179.99, 0],
        ],
      ],
    };
    expect(Math.abs(centreOf(across)?.[0] ?? 0)).toBeCloseTo(180, 9);
  });
});

describe('metres between fields', () => {
  it('agree with the geodesic between the facing sides to half a per cent', () => {
    for (const latitude of [0, 42, 60]) {
      const [a, b] = [square(-76, latitude, 0.002), square(-75.997, latitude, 0.002)];
      const expected = geographiclib.Geodesic.WGS84.Inverse(latitude, -75.998, latitude, -75.997).s12 ?? NaN;
      expect(Math.abs(metresBetween(a, b) / expected - 1)).toBeLessThan(0.005);
    }
  });

  it('are none where they touch, overlap, cross or lie inside one another', () => {
    expect(metresBetween(square(0, 0, 0.002), square(0.002, 0, 0.002))).toBeCloseTo(0, 6);
    expect(metresBetween(square(0, 0, 0.002), square(0.001, 0.001, 0.002))).toBe(0);
    expect(metresBetween(square(0, 0, 0.003), square(0.001, 0.001, 0.001))).toBe(0);
    const wide: Boundary = {
      type: 'Polygon',
      coordinates: [
        [
          [-0.002, 0.001],
          [0.004, 0.001],
          [0.004, 0.0011],
          [-0.002, 0.0011],
          [-0.002, 0.001],
        ],
      ],
    };
    expect(metresBetween(square(0, 0, 0.002), wide)).toBe(0);
  });
});
