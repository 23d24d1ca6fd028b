const hour = 3_600_000;
/** Distances between ticks that read well on a clock. */
const steps = [hour / 4, hour / 2, hour, 2 * hour, 3 * hour, 6 * hour, 12 * hour, 24 * hour, 48 * hour, 7 * 24 * hour];

/** Maps time to px, true to scale. */
export interface TimeAxis {
  readonly from: number;
  readonly to: number;
  readonly x: (at: number) => number;
  readonly ticks: readonly number[];
}

/** An axis over a width. Ticks fall on full hours of the zone, which lies `offset` ms east of UTC. */
export function timeAxis(from: number, to: number, left: number, right: number, offset: number, minPx = 56): TimeAxis {
  const scale = (right - left) / Math.max(1, to - from);
  const x = (at: number): number => left + (at - from) * scale;
  const step = steps.find((each) => each * scale >= minPx) ?? 7 * 24 * hour;
  const ticks: number[] = [];
  for (let at = Math.ceil((from + offset) / step) * step - offset; at <= to; at += step) ticks.push(at);
  return { from, to, x, ticks };
}
