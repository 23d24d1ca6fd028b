import { criticalT } from './studentT.ts';

/** A straight line y = mean.y + slope · (x − mean.x) through points, by ordinary least squares. */
export interface Line {
  readonly count: number;
  readonly slope: number;
  readonly mean: { readonly x: number; readonly y: number };
  /** Sum of (x − mean.x)². */
  readonly spread: number;
  /** Standard deviation of the residuals, with count − 2 degrees of freedom; 0 where the points lie on the line. */
  readonly deviation: number;
}

/** null with fewer than three points (no residual to judge by), or where all x are equal. */
export function leastSquares(points: readonly { readonly x: number; readonly y: number }[]): Line | null {
  const count = points.length;
  if (count < 3) return null;
  const mean = { x: average(points.map((p) => p.x)), y: average(points.map((p) => p.y)) };
  // Deviations from the means first: sums of raw squares of clock times would lose every digit.
  const spread = sum(points.map((p) => (p.x - mean.x) ** 2));
  if (spread === 0) return null;
  const slope = sum(points.map((p) => (p.x - mean.x) * (p.y - mean.y))) / spread;
  const residuals = sum(points.map((p) => (p.y - mean.y - slope * (p.x - mean.x)) ** 2));
  return { count, slope, mean, spread, deviation: Math.sqrt(residuals / (count - 2)) };
}

/** Where the line reaches y. */
export const reaches = (line: Line, y: number): number => line.mean.x + (y - line.mean.y) / line.slope;

/** Standard error of the slope. */
export const slopeError = (line: Line): number => line.deviation / Math.sqrt(line.spread);

/**
 * Fieller's interval for the x at which the line itself (its mean, not a single further reading) reaches y:
 * every x with |line(x) − y| ≤ t · deviation · √(1/count + (x − mean.x)²/spread). null where it has no end, that is
 * where the slope cannot be told from none at this confidence.
 * Source: Fieller 1954; Seber & Lee, Linear Regression Analysis, section 6.1 (from memory).
 */
export function fieller(line: Line, y: number, confidence: number): { from: number; to: number } | null {
  const t = criticalT(confidence, line.count - 2);
  const g = (t * slopeError(line)) ** 2 / line.slope ** 2;
  if (!(g < 1)) return null;
  const away = (y - line.mean.y) / line.slope;
  const middle = line.mean.x + away / (1 - g);
  const half =
    ((t * line.deviation) / Math.abs(line.slope) / (1 - g)) * Math.sqrt((1 - g) / line.count + away ** 2 / line.spread);
  return { from: middle - half, to: middle + half };
}

const sum = (numbers: readonly number[]): number => numbers.reduce((a, b) => a + b, 0);
const average = (numbers: readonly number[]): number => sum(numbers) / numbers.length;
