import { open } from './outline/corners.ts';
import { placeOf, viewOf, type Point } from './outline/view.ts';
import type { Ring } from './ring.ts';

export interface Projected {
  readonly id: string;
  readonly points: readonly Point[];
  readonly middle: Point;
}

export interface FieldMap {
  readonly shapes: readonly Projected[];
  readonly height: number;
  /** Metres that one px stands for. */
  readonly metresPerPx: number;
}

const margin = 14;

/** Draws outlines on a plane, north up, to scale, no higher than they need. null where there is nothing to draw. */
export function mapOf(
  outlines: readonly { readonly id: string; readonly ring: Ring }[],
  width: number,
  most: number,
): FieldMap | null {
  const rings = outlines.map(({ ring }) => ring);
  const view = viewOf(rings, { width, height: most }, margin);
  if (view === null) return null;
  // Drawn from the upper left corner on, so that no empty strip stands above or beside.
  const all = rings.flat().map((each) => placeOf(view, { width: 0, height: 0 }, each));
  const least = (axis: 0 | 1): number => Math.min(...all.map((each) => each[axis]));
  const [left, top] = [least(0) - margin, least(1) - margin];
  const shapes = outlines.map(({ id, ring }): Projected => {
    const points = open(ring).map((each): Point => {
      const [x, y] = placeOf(view, { width: 0, height: 0 }, each);
      return [x - left, y - top];
    });
    return { id, points, middle: middleOf(points) };
  });
  const height = Math.max(...all.map(([, y]) => y)) - top + margin;
  return { shapes, height, metresPerPx: view.metresPerPx };
}

/** A length that reads well and is at most `px` long: 1, 2 or 5 times a power of ten, m. */
export function scaleBar(metresPerPx: number, px: number): number {
  const most = metresPerPx * px;
  const ten = 10 ** Math.floor(Math.log10(most));
  return [5, 2, 1].map((each) => each * ten).find((each) => each <= most) ?? ten;
}

/** Where the name of an outline stands: the mean of its corners. */
export function middleOf(points: readonly Point[]): Point {
  const mean = (axis: 0 | 1): number => points.reduce((sum, each) => sum + each[axis], 0) / Math.max(1, points.length);
  return [mean(0), mean(1)];
}

/** Corners as an SVG polygon or polyline has them. */
export const pointsText = (points: readonly Point[]): string =>
  points.map(([x, y]) => `${x.toFixed(1)},${y.toFixed(1)}`).join(' ');

/** Whether a name fits on its outline. */
export function hasRoom(points: readonly Point[], code: string): boolean {
  const extent = (axis: 0 | 1): number =>
    Math.max(...points.map((each) => each[axis])) - Math.min(...points.map((each) => each[axis]));
  return extent(0) >= code.length * 7.5 && extent(1) >= 14;
}
