import { describe, expect, it } from '@jest/globals';
import { mapOf, scaleBar } from './projection.ts';

const square = (lon: number, lat: number, size: number) => [
  [lon, lat],
  [lon + size, lat],
  [lon + size, lat + size],
  [lon, lat + size],
  [lon, lat],
];
const extent = (points: readonly (readonly [number, number])[], axis: 0 | 1): number =>
  Math.max(...points.map((each) => each[axis])) - Math.min(...points.map((each) => each[axis]));

describe('fields on a plane', () => {
  // The cosine of 60° is one half: there a degree of longitude is half as long as one of latitude.
  it('at 60° north a field as many degrees wide as high is drawn half as wide as high', () => {
    const map = mapOf([{ id: 'a', ring: square(10, 60 - 0.0005, 0.001) }], 500, 500);
    const points = map?.shapes[0]?.points ?? [];
    expect(extent(points, 0) / extent(points, 1)).toBeCloseTo(0.5, 4);
  });
  it('north is up and west is left', () => {
    const map = mapOf(
      [
        { id: 'south-west', ring: square(-74.21, 42.09, 0.001) },
        { id: 'north-east', ring: square(-74.2, 42.1, 0.001) },
      ],
      400,
      400,
    );
    const [low, high] = map?.shapes ?? [];
    expect(low?.middle[0]).toBeLessThan(high?.middle[0] ?? -1);
    expect(low?.middle[1]).toBeGreaterThan(high?.middle[1] ?? Infinity);
  });
  // A degree of latitude is about 111.2 km on a sphere of mean radius (6371.0088 km × π/180 = 111.195 km).
  it('keeps to scale', () => {
    const map = mapOf([{ id: 'a', ring: square(0, 0, 0.01) }], 1000, 1000);
    const points = map?.shapes[0]?.points ?? [];
    expect(extent(points, 1) * (map?.metresPerPx ?? 0)).toBeCloseTo(1111.95, 1);
  });
  it('draws nothing out of nothing', () => {
    expect(mapOf([], 300, 300)).toBeNull();
  });
  it.each([
    [1.3, 100, 100],
    [0.21, 100, 20],
    [5.4, 100, 500],
  ])('at %d m/px a bar of at most %d px stands for %d m', (perPx, px, metres) => {
    expect(scaleBar(perPx, px)).toBe(metres);
  });
});
