import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { crossing, inside, type Position } from './ring.ts';

/* Plain geometry on squared paper: every answer can be seen by drawing the corners. */
const ring = (...corners: readonly Position[]): Position[] => [...corners, ...corners.slice(0, 1)];

describe('a boundary walked in order', () => {
  it('a square, a triangle and a step meet themselves nowhere', () => {
    expect(crossing(ring([0, 0], [4, 0], [4, 4], [0, 4]))).toBeNull();
    expect(crossing(ring([0, 0], [4, 0], [0, 4]))).toBeNull();
    expect(crossing(ring([0, 0], [4, 0], [4, 4], [2, 4], [2, 2], [0, 2]))).toBeNull();
    expect(crossing([])).toBeNull();
  });
  it('a corner written twice in a row is one corner', () => {
    expect(crossing(ring([0, 0], [4, 0], [4, 0], [4, 4], [0, 4]))).toBeNull();
  });
  it('two corners exchanged: the edge that crosses is named by its first position', () => {
    expect(crossing(ring([0, 0], [4, 4], [4, 0], [0, 4]))).toBe(2);
    // The first edge along the ground, the third through it.
    expect(crossing(ring([0, 0], [4, 0], [4, 4], [2, -1]))).toBe(2);
  });
  it('a corner that touches another edge, from either side, meets it', () => {
    // The fourth corner lies on the first edge.
    expect(crossing(ring([0, 0], [4, 0], [4, 4], [2, 0], [0, 4]))).not.toBeNull();
    // The first corner lies on the third edge, which runs over it.
    expect(crossing(ring([2, 0], [4, 4], [4, 0], [0, 0], [0, 4]))).not.toBeNull();
    // Back along the way it came, in part.
    expect(crossing(ring([0, 0], [6, 0], [6, 2], [5, 2], [5, 0], [3, 0], [3, 4]))).not.toBeNull();
  });
  it('edges that lie on one another meet, whichever end lies on which: the fourth position begins the one named', () => {
    // All on one line: the third edge lies on a part of the first, or over its end, or over all of it.
    for (const x of [1, 3, 5, 6, 7]) expect(crossing(ring([2, 0], [6, 0], [4, 0], [x, 0]))).toBe(2);
    for (const x of [0, 1, 5, 6, 8]) expect(crossing(ring([2, 0], [6, 0], [7, 0], [x, 0]))).toBe(x > 6 ? 3 : 2);
    // Back along the way it came and past where it began, then up.
    expect(crossing(ring([2, 0], [6, 0], [4, 0], [0, 0], [0, 4]))).toBe(2);
    expect(crossing(ring([2, 0], [6, 0], [8, 0], [0, 0], [0, 4]))).toBe(2);
  });
  it('edges on one straight line that lie apart do not meet', () => {
    // Two teeth of a comb stand on the line y = 2: from 0 to 1 and from 3 to 4.
    expect(crossing(ring([0, 0], [4, 0], [4, 2], [3, 2], [3, 1], [1, 1], [1, 2], [0, 2]))).toBeNull();
    // The same, upright: x = 2.
    expect(crossing(ring([0, 0], [2, 0], [2, 1], [1, 1], [1, 3], [2, 3], [2, 4], [0, 4]))).toBeNull();
  });
  it('an edge that would meet another only if both went on does not', () => {
    expect(crossing(ring([0, 0], [8, 0], [8, 8], [6, 2], [2, 2], [0, 8]))).toBeNull();
    // A corner on a slope, part of the way along: the edge from its end comes back beside it.
    expect(crossing(ring([0, 0], [4, 4], [6, 6], [3, 1]))).toBeNull();
    expect(crossing(ring([0, 0], [4, 4], [3, 1], [-2, -2]))).toBeNull();
  });
  it('holds across the date line', () => {
    expect(crossing(ring([179, 0], [-179, 0], [-179, 2], [179, 2]))).toBeNull();
    expect(crossing(ring([179, 0], [-179, 2], [-179, 0], [179, 2]))).toBe(2);
    expect(crossing(ring([-179, 0], [179, 0], [179, 2], [-179, 2]))).toBeNull();
    // A square from 177° to 183° east with a notch cut into its top: taken as two halves it would cross itself.
    expect(crossing(ring([177, 0], [-177, 0], [-177, 3], [179, 1], [177, 3]))).toBeNull();
  });
});

describe('inside a boundary', () => {
  // A field with a notch cut into its top.
  const field = ring([0, 0], [6, 0], [6, 4], [4, 4], [4, 2], [2, 2], [2, 4], [0, 4]);
  it.each<[Position, boolean, string]>([
    [[1, 1], true, 'well inside'],
    [[1, 3], true, 'left of the notch'],
    [[5, 3], true, 'right of the notch'],
    [[3, 3], false, 'in the notch'],
    [[3, 2], true, 'on the floor of the notch'],
    [[2, 3], true, 'on the side of the notch'],
    [[0, 0], true, 'on a corner'],
    [[6, 2], true, 'on an edge'],
    [[3, 0], true, 'on the ground line'],
    [[1, 2], true, 'level with the floor of the notch, left of it'],
    [[-1, 2], false, 'level with the floor, outside'],
    [[7, 2], false, 'right of everything'],
    [[7, 0], false, 'on the ground line, beyond its end'],
    [[3, 5], false, 'above'],
    [[3, -1], false, 'below'],
    [[-1, 4], false, 'level with the top'],
    [[3, 4], false, 'level with the top, between the teeth'],
  ])('%j: %s (%s)', (position, within) => {
    expect(inside(position, field)).toBe(within);
    expect(inside(position, [...field].reverse())).toBe(within);
  });
  it('of a slope: either side of its line', () => {
    const slope = ring([0, 0], [4, 0], [0, 4]);
    expect(inside([1, 2.5], slope)).toBe(true);
    expect(inside([2, 2], slope)).toBe(true);
    expect(inside([1.5, 2.6], slope)).toBe(false);
  });
  it('across the date line, from either side', () => {
    const field = ring([179, 0], [-179, 0], [-179, 2], [179, 2]);
    expect([inside([180, 1], field), inside([-179.5, 1], field), inside([179.5, 1], field)]).toEqual([
      true,
      true,
      true,
    ]);
    expect([inside([178, 1], field), inside([-178, 1], field)]).toEqual([false, false]);
  });
  it('of nothing is nothing', () => {
    expect(inside([0, 0], [])).toBe(false);
  });
});

describe('the same field', () => {
  const corner = fc.tuple(fc.integer({ min: 0, max: 6 }), fc.integer({ min: 0, max: 6 }));
  const field = fc.array(corner, { minLength: 3, maxLength: 7 });
  const moves: [string, (p: Position) => Position][] = [
    ['on the date line', ([x, y]) => [x > 3 ? x - 183 : x + 177, y]],
    ['one whole turn on', ([x, y]) => [x + 360, y]],
    ['south of the equator', ([x, y]) => [x + 20, y - 50]],
    ['mirrored east to west', ([x, y]) => [-x, y]],
    ['mirrored north to south', ([x, y]) => [x, -y]],
    ['turned by a quarter', ([x, y]) => [-y, x]],
  ];
  it.each(moves)('%s crosses itself where it did and holds the same positions', (_, move) => {
    fc.assert(
      fc.property(field, corner, (corners, p) => {
        const [here, there] = [ring(...corners), ring(...corners.map(move))];
        expect(crossing(there)).toBe(crossing(here));
        expect(inside(move(p), there)).toBe(inside(p, here));
      }),
    );
  });
  it('begun at another corner or walked the other way, also on the date line, is the same ground', () => {
    fc.assert(
      fc.property(field, corner, fc.nat(6), fc.constantFrom(...moves), (corners, p, n, [, move]) => {
        const [here, q] = [corners.map(move), move(p)];
        const begun = ring(...here.slice(n % here.length), ...here.slice(0, n % here.length));
        for (const other of [begun, begun.toReversed()]) {
          expect(crossing(other) === null).toBe(crossing(ring(...here)) === null);
          expect(inside(q, other)).toBe(inside(q, ring(...here)));
        }
      }),
    );
  });
});
