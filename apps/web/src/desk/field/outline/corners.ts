import type { Ring } from '../ring.ts';

/**
 * An outline as text, the form in which it is kept and can be typed: one “longitude, latitude” a line; after an empty line
 * a hole begins. Nothing is repeated at the end: it is closed by itself.
 */
export const outlineText = (rings: readonly Ring[]): string =>
  rings.map((ring) => ring.map((each) => each.join(', ')).join('\n')).join('\n\n');

/** The corners that a text gives, ring by ring and however few; null where a line is not two or three numbers. */
export function cornersIn(text: string): readonly Ring[] | null {
  const rings = text
    .split(/\n[^\S\n]*\n/)
    .map((block) => block.split('\n').filter((line) => line.trim() !== ''))
    .filter((lines) => lines.length > 0)
    .map((lines) =>
      lines.map((line) =>
        line
          .trim()
          .split(/[\s,;]+/)
          .filter((part) => part !== '')
          .map(Number),
      ),
    );
  const plain = rings.every((ring) => ring.every(isPosition));
  return plain ? rings.map(open) : null;
}

const isPosition = (numbers: readonly number[]): boolean =>
  (numbers.length === 2 || numbers.length === 3) && numbers.every((n) => Number.isFinite(n));

/** A ring without the last corner where that repeats the first. */
export function open(ring: Ring): Ring {
  const [first, last] = [ring[0], ring.at(-1)];
  const closed = ring.length > 1 && first !== undefined && first.every((n, i) => n === last?.[i]);
  return closed ? ring.slice(0, -1) : ring;
}

/** The rings of a boundary as GeoJSON has them, closed; null where one has fewer than three corners, or a line is none. */
export function ringsIn(text: string): readonly Ring[] | null {
  const rings = cornersIn(text);
  if (rings === null || rings.length === 0 || rings.some((ring) => ring.length < 3)) return null;
  return rings.map((ring) => [...ring, ...ring.slice(0, 1)]);
}

/**
 * The boundary as a record holds it. Of a text that is none, what can be read: it is refused by name and not left out
 * without a word.
 */
export const boundaryIn = (text: string): { readonly type: 'Polygon'; readonly coordinates: readonly Ring[] } => ({
  ...{ type: 'Polygon', coordinates: ringsIn(text) ?? cornersIn(text) ?? [[[]]] },
});

/** Whether every corner lies beyond the polar circles, where nothing is grown: latitude and longitude were exchanged. */
export const exchanged = (ring: Ring): boolean => ring.every(([, lat = 0]) => Math.abs(lat) > 66.6);

/** A record's boundary as text; empty where it is none. */
export function outlineIn(boundary: unknown): string {
  const rings: unknown = typeof boundary === 'object' && boundary !== null && Reflect.get(boundary, 'coordinates');
  if (!Array.isArray(rings)) return '';
  return outlineText(rings.filter(isRing).map(open));
}

const isRing = (ring: unknown): ring is Ring =>
  Array.isArray(ring) && ring.every((each) => Array.isArray(each) && each.every((n) => typeof n === 'number'));
