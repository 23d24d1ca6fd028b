import type { Position, Ring } from '../ring.ts';

/** What part of the ground a picture shows: its middle, and the metres that one px stands for. */
export interface View {
  readonly middle: Position;
  readonly metresPerPx: number;
}

export interface Size {
  readonly width: number;
  readonly height: number;
}

/** Mean radius of the Earth, m (IUGG R1). Over a farm a sphere is exact enough to draw. */
const radius = 6_371_008.8;
const metresPerDegree = (Math.PI / 180) * radius;
/** A degree of longitude is shorter than one of latitude by the cosine of the latitude. */
const shrinkAt = (latitude: number): number => Math.cos((latitude * Math.PI) / 180);

/** Where a position lies in the picture, px from its upper left: north up, to scale (equirectangular about the middle). */
export function placeOf(view: View, { width, height }: Size, [lon = 0, lat = 0]: readonly number[]): Point {
  const [midLon, midLat] = view.middle;
  return [
    width / 2 + ((lon - midLon) * shrinkAt(midLat) * metresPerDegree) / view.metresPerPx,
    height / 2 - ((lat - midLat) * metresPerDegree) / view.metresPerPx,
  ];
}
export type Point = readonly [x: number, y: number];

/** The position under a point of the picture, to a centimetre or so (seven places of a degree). */
export function positionAt(view: View, { width, height }: Size, [x, y]: Point): Position {
  const [midLon, midLat] = view.middle;
  const lon = midLon + ((x - width / 2) * view.metresPerPx) / metresPerDegree / shrinkAt(midLat);
  const lat = midLat - ((y - height / 2) * view.metresPerPx) / metresPerDegree;
  return [Number(lon.toFixed(7)), Number(lat.toFixed(7))];
}

/** The view that holds all of the rings with a margin around them; null where there are no positions. */
export function viewOf(rings: readonly Ring[], { width, height }: Size, margin: number): View | null {
  const all = rings.flat();
  if (all.length === 0) return null;
  const [lons, lats] = [all.map(([lon = 0]) => lon), all.map(([, lat = 0]) => lat)];
  const [west, east] = [Math.min(...lons), Math.max(...lons)];
  const [south, north] = [Math.min(...lats), Math.max(...lats)];
  const middle: Position = [(west + east) / 2, (south + north) / 2];
  const wide = Math.max(1, (east - west) * shrinkAt(middle[1]) * metresPerDegree);
  const tall = Math.max(1, (north - south) * metresPerDegree);
  return { middle, metresPerPx: Math.max(wide / (width - 2 * margin), tall / (height - 2 * margin)) };
}

/** Whether a position can be seen. */
export function shows(view: View, size: Size, position: readonly number[]): boolean {
  const [x, y] = placeOf(view, size, position);
  return x >= 0 && y >= 0 && x <= size.width && y <= size.height;
}

/** The view moved by so many px: east and south are positive. */
export const shifted = (view: View, by: Point): View => ({
  ...view,
  middle: positionAt(view, { width: 0, height: 0 }, by),
});

/** No closer than 1 cm a px, no farther than 1 km a px. */
export const zoomed = (view: View, times: number): View => ({
  ...view,
  metresPerPx: Math.min(1000, Math.max(0.01, view.metresPerPx * times)),
});
