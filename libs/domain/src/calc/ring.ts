/** Longitude, latitude in degrees (RFC 7946, section 3.1.1). */
export type Position = readonly [longitude: number, latitude: number];

/** Longitudes made continuous from the first position on, so that a field on the date line stays in one piece. */
function unrolled(ring: readonly Position[], from: number): Position[] {
  return ring.map(([longitude, latitude]) => {
    const turns = Math.round((longitude - from) / 360);
    return [longitude - turns * 360, latitude];
  });
}

const side = (a: Position, b: Position, p: Position): number =>
  Math.sign((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]));

const between = (a: Position, b: Position, p: Position): boolean =>
  Math.min(a[0], b[0]) <= p[0] &&
  p[0] <= Math.max(a[0], b[0]) &&
  Math.min(a[1], b[1]) <= p[1] &&
  p[1] <= Math.max(a[1], b[1]);

function meet(a: Position, b: Position, c: Position, d: Position): boolean {
  const [s1, s2, s3, s4] = [side(a, b, c), side(a, b, d), side(c, d, a), side(c, d, b)];
  if (s1 !== s2 && s3 !== s4) return true;
  // Else only two that lie on one line can: an end of one stands on the other. Where only `b` does, so does `c` or `d`.
  return s1 === 0 && s2 === 0 && (between(a, b, c) || between(a, b, d) || between(c, d, a));
}

/** Index of the first edge that meets another one that is not its neighbour; null where a closed ring is simple. */
export function crossing(ring: readonly Position[]): number | null {
  const all = unrolled(ring, ring[0]?.[0] ?? 0);
  // A position written twice in a row is one corner.
  const kept = all.flatMap((p, index) => {
    const before = all[index - 1];
    return before !== undefined && before[0] === p[0] && before[1] === p[1] ? [] : [{ p, index }];
  });
  const edges = kept.slice(1).flatMap((end, i) => {
    const start = kept[i];
    return start === undefined ? [] : [{ a: start.p, b: end.p, index: start.index }];
  });
  for (const [i, e] of edges.entries()) {
    for (const [j, f] of edges.entries()) {
      const neighbours = j - i === 1 || (i === 0 && j === edges.length - 1);
      if (j > i && !neighbours && meet(e.a, e.b, f.a, f.b)) return f.index;
    }
  }
  return null;
}

/** Whether a position lies inside a closed ring or on it. */
export function inside(position: Position, ring: readonly Position[]): boolean {
  const from = ring[0]?.[0] ?? 0;
  const [p = position] = unrolled([position], from);
  const corners = unrolled(ring, from);
  let within = false;
  for (const [i, b] of corners.entries()) {
    const a = corners[i - 1];
    if (a === undefined) continue;
    if (side(a, b, p) === 0 && between(a, b, p)) return true;
    if (a[1] > p[1] !== b[1] > p[1] && p[0] < ((b[0] - a[0]) * (p[1] - a[1])) / (b[1] - a[1]) + a[0]) within = !within;
  }
  return within;
}
