import geographiclib from 'geographiclib-geodesic';
import { z } from 'zod';
import { later } from '../later.ts';
import { calculation, refuse, type Refusal, type Worked } from './calculation.ts';
import { figure } from './figures.ts';
import { crossing, inside, type Position } from './ring.ts';

const source =
  'Karney 2013, Algorithms for geodesics (Journal of Geodesy 87:43–55), ellipsoid WGS 84; positions as in GeoJSON, RFC 7946';
const mostPositions = 1000;

/**
 * Area in m² of a GeoJSON polygon on the WGS 84 ellipsoid: the first ring without the holes. Longitude first, rings
 * closed or not, either way round. Edges are geodesics.
 */
export function polygonAreaM2(rings: readonly (readonly Position[])[]): number {
  const [outer, ...holes] = rings;
  return outer === undefined ? 0 : holes.reduce((rest, hole) => rest - ringOf(hole).area, ringOf(outer).area);
}

function ringOf(ring: readonly Position[]): { readonly area: number; readonly perimeter: number } {
  const polygon = geographiclib.Geodesic.WGS84.Polygon(false);
  // A last position that repeats the first adds an edge of no length.
  for (const [longitude, latitude] of ring) polygon.AddPoint(latitude, longitude);
  const { area = 0, perimeter } = polygon.Compute(false, true);
  return { area: Math.abs(area), perimeter };
}

const position = later(() =>
  z
    .array(z.number())
    .min(2, 'must be longitude, then latitude')
    .max(3, 'must be longitude, then latitude')
    .transform(([longitude = NaN, latitude = NaN]): Position => [longitude, latitude])
    .refine(([longitude]) => Math.abs(longitude) <= 180, 'has a longitude outside -180 to 180: longitude comes first')
    .refine(([, latitude]) => Math.abs(latitude) <= 90, 'has a latitude outside -90 to 90: longitude comes first'),
);

const input = later(() =>
  z.strictObject({
    boundary: z.strictObject({
      type: z.literal('Polygon', 'must be “Polygon”'),
      coordinates: z.array(z.array(position())).min(1, 'must hold the boundary'),
      bbox: z.array(z.number()).optional(),
    }),
  }),
);

export interface AreaAnswer extends Worked {
  readonly area: { readonly value: number; readonly unit: 'm2' };
  /** Length of the outer boundary. */
  readonly perimeter: { readonly value: number; readonly unit: 'm' };
}

/** Area of a field from its boundary. */
export const fieldArea = calculation<z.infer<ReturnType<typeof input>>, AreaAnswer>({
  name: 'field-area',
  title: 'Area of a field from its boundary',
  source,
  input,
  work: ({ boundary }) => areaOf(boundary.coordinates),
});

function areaOf(rings: readonly (readonly Position[])[]): AreaAnswer | Refusal {
  const wrong = impossible(rings);
  if (wrong !== null) return wrong;
  const outer = ringOf(rings[0] ?? []);
  const area = polygonAreaM2(rings);
  return {
    area: { value: Number(area.toPrecision(12)), unit: 'm2' },
    perimeter: { value: Number(outer.perimeter.toPrecision(12)), unit: 'm' },
    working: [
      `Outer boundary: ${figure(outer.area, 9)} m², ${figure(outer.perimeter)} m around`,
      ...rings.slice(1).map((hole) => `Hole: −${figure(ringOf(hole).area, 9)} m²`),
      `${figure(area, 9)} m² = ${figure(area / 10_000)} ha`,
    ],
    cautions: [
      'The area on the ellipsoid: no slope, and no better than the positions (a phone is good to some metres).',
    ],
    source,
  };
}

function impossible(rings: readonly (readonly Position[])[]): Refusal | null {
  const at = (ring: number, ...more: number[]) => ['boundary', 'coordinates', ring, ...more];
  if (rings.reduce((sum, ring) => sum + ring.length, 0) > mostPositions) {
    return refuse(['boundary', 'coordinates'], `A boundary may have at most ${String(mostPositions)} positions.`);
  }
  for (const [i, ring] of rings.entries()) {
    const [first, last] = [ring[0], ring.at(-1)];
    if (ring.length < 4) return refuse(at(i), 'A ring has at least four positions, the last the same as the first.');
    if (first?.[0] !== last?.[0] || first?.[1] !== last?.[1]) {
      return refuse(at(i, ring.length - 1), 'The ring is not closed: its last position must repeat the first.');
    }
    const cross = crossing(ring);
    if (cross !== null)
      return refuse(at(i, cross), 'The boundary crosses itself here: put the positions in walking order.');
    if (!(ringOf(ring).area > 0)) return refuse(at(i), 'The positions enclose no ground.');
  }
  const [outer = [], ...holes] = rings;
  const outside = holes.findIndex((hole) => !hole.every((p) => inside(p, outer)));
  return outside < 0 ? null : refuse(at(outside + 1), 'This hole does not lie inside the boundary.');
}
