import type { DataOf } from '@furrowmark/domain';

export type Boundary = NonNullable<DataOf<'field.registered'>['boundary']>;
type Ring = Boundary['coordinates'][number];
type Point = readonly [longitude: number, latitude: number];

/** Positions as points, longitudes continuous from the first on, so that a field on the date line stays in one piece. */
function pointsOf(ring: Ring): Point[] {
  const from = ring[0]?.[0] ?? 0;
  return ring.map(([longitude = NaN, latitude = NaN]) => [
    longitude - Math.round((longitude - from) / 360) * 360,
    latitude,
  ]);
}

/** Twice the signed area in square degrees: above 0 where the ring runs counterclockwise (the shoelace formula). */
const turning = (points: readonly Point[]): number =>
  points.reduce((sum, [x, y], i) => {
    const [nextX, nextY] = points[(i + 1) % points.length] ?? [x, y];
    return sum + (x * nextY - nextX * y);
  }, 0);

/** The ring from its first corner, so that its figures stay small and exact enough. */
function fromFirst(points: readonly Point[]): Point[] {
  const [x0, y0] = points[0] ?? [0, 0];
  return points.map(([x, y]) => [x - x0, y - y0]);
}

/** The polygon with its outline counterclockwise and its holes clockwise (RFC 7946, section 3.1.6). */
export function rightHanded({ type, coordinates }: Boundary): Boundary {
  return {
    type,
    coordinates: coordinates.map((ring, i) => {
      const counterclockwise = turning(fromFirst(pointsOf(ring))) > 0;
      return counterclockwise === (i === 0) ? ring : ring.toReversed();
    }),
  };
}

const inRange = (longitude: number): number => ((((longitude + 180) % 360) + 360) % 360) - 180;

/**
 * The middle of a field, longitude and latitude: the centroid of its outline taken as flat, which is good to less than a
 * metre for a field. null where the outline encloses nothing.
 */
export function centreOf({ coordinates }: Boundary): Point | null {
  const outline = pointsOf(coordinates[0] ?? []);
  const [origin] = outline;
  const points = fromFirst(outline);
  const doubled = turning(points);
  if (origin === undefined || doubled === 0 || !Number.isFinite(doubled)) return null;
  let [x, y] = [0, 0];
  points.forEach(([ax, ay], i) => {
    const [bx, by] = points[(i + 1) % points.length] ?? [ax, ay];
    const cross = ax * by - bx * ay;
    x += (ax + bx) * cross;
    y += (ay + by) * cross;
  });
  return [inRange(origin[0] + x / (3 * doubled)), origin[1] + y / (3 * doubled)];
}

/** Metres in a degree of latitude, and of longitude at the equator, on a sphere of the mean radius (IUGG, 6371.0088 km). */
const metresPerDegree = (Math.PI / 180) * 6_371_008.8;

/**
 * Metres between the outlines of two fields, 0 where they touch or overlap. Good to half a per cent for fields that lie
 * near each other; it tells neighbours from others, it is no survey.
 */
export function metresBetween(a: Boundary, b: Boundary): number {
  const [first, second] = [pointsOf(a.coordinates[0] ?? []), pointsOf(b.coordinates[0] ?? [])];
  const [origin] = first;
  if (origin === undefined || second.length === 0) return Infinity;
  const across = metresPerDegree * Math.cos((origin[1] * Math.PI) / 180);
  const turns = Math.round(((second[0]?.[0] ?? 0) - origin[0]) / 360) * 360;
  const flat = (points: readonly Point[], shift: number): Point[] =>
    points.map(([x, y]) => [(x - shift - origin[0]) * across, (y - origin[1]) * metresPerDegree]);
  const [p, q] = [flat(first, 0), flat(second, turns)];
  if (p.some((each) => within(each, q)) || q.some((each) => within(each, p))) return 0;
  return Math.min(nearest(p, q), nearest(q, p), ...crossings(p, q));
}

/** From each corner of one outline to each edge of the other. */
const nearest = (corners: readonly Point[], outline: readonly Point[]): number =>
  corners.reduce(
    (least, corner) => edgesOf(outline).reduce((lower, [a, b]) => Math.min(lower, toEdge(corner, a, b)), least),
    Infinity,
  );

const edgesOf = (outline: readonly Point[]): (readonly [Point, Point])[] =>
  outline.slice(1).flatMap((end, i) => {
    const start = outline[i];
    return start === undefined ? [] : [[start, end] as const];
  });

function toEdge([x, y]: Point, [ax, ay]: Point, [bx, by]: Point): number {
  const [dx, dy] = [bx - ax, by - ay];
  const length = dx * dx + dy * dy;
  const t = length === 0 ? 0 : Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / length));
  return Math.hypot(x - (ax + t * dx), y - (ay + t * dy));
}

function within([x, y]: Point, outline: readonly Point[]): boolean {
  let inside = false;
  for (const [[ax, ay], [bx, by]] of edgesOf(outline)) {
    if (ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax) inside = !inside;
  }
  return inside;
}

/** 0 where an edge of one crosses an edge of the other: fields may overlap without a corner inside. */
function crossings(p: readonly Point[], q: readonly Point[]): number[] {
  const side = ([ax, ay]: Point, [bx, by]: Point, [x, y]: Point): number =>
    Math.sign((bx - ax) * (y - ay) - (by - ay) * (x - ax));
  for (const [a, b] of edgesOf(p))
    for (const [c, d] of edgesOf(q))
      if (side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0) return [0];
  return [];
}
