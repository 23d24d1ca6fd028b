/** A ring of positions, longitude first, as GeoJSON (RFC 7946 §3.1.1) has them. */
export type Ring = readonly (readonly number[])[];

export interface Projected {
  readonly id: string;
  readonly points: readonly (readonly [x: number, y: number])[];
  readonly middle: readonly [x: number, y: number];
}

export interface FieldMap {
  readonly shapes: readonly Projected[];
  readonly height: number;
  /** Metres that one px stands for. */
  readonly metresPerPx: number;
}

/** Mean radius of the Earth, m (IUGG R1). Over a farm a sphere is exact enough to draw. */
const radius = 6_371_008.8;
const margin = 14;

/**
 * Draws outlines on a plane, north up, to scale: a degree of longitude is shorter than one of latitude by the cosine
 * of the latitude (equirectangular projection about the middle latitude). null where there is nothing to draw.
 */
export function mapOf(
  outlines: readonly { readonly id: string; readonly ring: Ring }[],
  width: number,
  most: number,
): FieldMap | null {
  const all = outlines.flatMap(({ ring }) => ring);
  const [lons, lats] = [all.map(([lon = 0]) => lon), all.map(([, lat = 0]) => lat)];
  if (all.length === 0) return null;
  const [west, east] = [Math.min(...lons), Math.max(...lons)];
  const [south, north] = [Math.min(...lats), Math.max(...lats)];
  const metres = (Math.PI / 180) * radius;
  const shrink = Math.cos((((south + north) / 2) * Math.PI) / 180);
  const [wide, tall] = [Math.max(1, (east - west) * shrink * metres), Math.max(1, (north - south) * metres)];
  const scale = Math.min((width - 2 * margin) / wide, (most - 2 * margin) / tall);
  const place = ([lon = 0, lat = 0]: readonly number[]): readonly [number, number] => [
    margin + (lon - west) * shrink * metres * scale,
    margin + (north - lat) * metres * scale,
  ];
  const shapes = outlines.map(({ id, ring }): Projected => {
    // The last position repeats the first.
    const points = ring.slice(0, -1).map(place);
    const n = Math.max(1, points.length);
    const middle = [
      points.reduce((sum, [x]) => sum + x, 0) / n,
      points.reduce((sum, [, y]) => sum + y, 0) / n,
    ] as const;
    return { id, points, middle };
  });
  return { shapes, height: tall * scale + 2 * margin, metresPerPx: 1 / scale };
}

/** A length that reads well and is at most `px` long: 1, 2 or 5 times a power of ten, m. */
export function scaleBar(metresPerPx: number, px: number): number {
  const most = metresPerPx * px;
  const ten = 10 ** Math.floor(Math.log10(most));
  return [5, 2, 1].map((each) => each * ten).find((each) => each <= most) ?? ten;
}

/** Whether every corner lies beyond the polar circles, where nothing is grown: latitude and longitude were exchanged. */
export const exchanged = (ring: Ring): boolean => ring.every(([, lat = 0]) => Math.abs(lat) > 66.6);

/** Reads a boundary written as one “longitude, latitude” a line and closes it; null where a line is not that. */
export function ringIn(text: string): Ring | null {
  const lines = text.split('\n').filter((line) => line.trim() !== '');
  const ring = lines.map((line) =>
    line
      .trim()
      .split(/[\s,;]+/)
      .map(Number),
  );
  if (ring.length < 3 || ring.some((each) => each.length !== 2 || each.some((n) => !Number.isFinite(n)))) return null;
  const [first, last] = [ring[0], ring.at(-1)];
  if (first === undefined || last === undefined) return null;
  return first.every((n, i) => n === last[i]) ? ring : [...ring, first];
}
