import type { Position, Ring } from '../ring.ts';

/** The outer ring with a corner changed: put at the end, moved, taken out, or halved towards the next. */
export type Step =
  | { readonly kind: 'add'; readonly at: Position }
  | { readonly kind: 'move'; readonly corner: number; readonly to: Position }
  | { readonly kind: 'takeOut'; readonly corner: number }
  | { readonly kind: 'oneMore'; readonly corner: number };

export function stepped(ring: Ring, step: Step): Ring {
  switch (step.kind) {
    case 'add':
      return [...ring, step.at];
    case 'move':
      return ring.with(step.corner, step.to);
    case 'takeOut':
      return ring.toSpliced(step.corner, 1);
    case 'oneMore': {
      const [lon = 0, lat = 0] = ring[step.corner] ?? [];
      const [nextLon = lon, nextLat = lat] = ring[(step.corner + 1) % ring.length] ?? [];
      const half = (a: number, b: number): number => Number(((a + b) / 2).toFixed(7));
      return ring.toSpliced(step.corner + 1, 0, [half(lon, nextLon), half(lat, nextLat)]);
    }
  }
}
