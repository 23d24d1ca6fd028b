import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { stepped } from './corner.ts';
import { placeOf, positionAt, shifted, viewOf, zoomed } from './view.ts';

const size = { width: 600, height: 400 };

describe('ground to draw on', () => {
  it('a touch lies where it was put: there and back within a centimetre and a half', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -179, max: 179, noNaN: true }),
        fc.double({ min: -66, max: 66, noNaN: true }),
        fc.double({ min: 0.05, max: 20, noNaN: true }),
        fc.integer({ min: 0, max: 600 }),
        fc.integer({ min: 0, max: 400 }),
        (lon, lat, metresPerPx, x, y) => {
          const view = { middle: [lon, lat], metresPerPx } as const;
          const [backX, backY] = placeOf(view, size, positionAt(view, size, [x, y]));
          expect(Math.hypot(backX - x, backY - y) * metresPerPx).toBeLessThan(0.015);
        },
      ),
    );
  });
  // A degree of latitude is about 111.195 km on a sphere of mean radius (6371.0088 km × π/180); of longitude at 60° half.
  it('is to scale: 100 px up at 1 m/px are 100 m north, and as many degrees east half as far', () => {
    const view = { middle: [10, 60], metresPerPx: 1 } as const;
    const [, lat] = positionAt(view, size, [300, 100]);
    expect((lat - 60) * 111_195).toBeCloseTo(100, 0);
    const [lon] = positionAt(view, size, [400, 200]);
    expect((lon - 10) * 111_195 * 0.5).toBeCloseTo(100, 0);
  });
  it('shows all that is drawn, with a margin', () => {
    const ring = [[-93.1, 41], [-93.09, 41], [-93.09, 41.002]]; // prettier-ignore
    const view = viewOf([ring], size, 40);
    if (view === null) throw new Error('nothing to draw');
    const places = ring.map((each) => placeOf(view, size, each));
    expect(Math.min(...places.map(([x]) => x))).toBeCloseTo(40, 4);
    expect(Math.max(...places.map(([x]) => x))).toBeCloseTo(560, 4);
    expect(Math.min(...places.map(([, y]) => y))).toBeGreaterThanOrEqual(40);
  });
  it('moved east shows what lay east of the middle in it, and closer keeps the middle', () => {
    const view = { middle: [-93.1, 41], metresPerPx: 2 } as const;
    const [x, y] = placeOf(shifted(view, [60, 0]), size, view.middle);
    expect([Math.round(x), Math.round(y)]).toEqual([240, 200]);
    expect(zoomed(view, 0.5)).toEqual({ middle: [-93.1, 41], metresPerPx: 1 });
  });
});

describe('a corner', () => {
  const ring = [[0, 0], [4, 0], [4, 2]]; // prettier-ignore
  it('is added last, moved, taken out', () => {
    expect(stepped(ring, { kind: 'add', at: [0, 2] })).toEqual([...ring, [0, 2]]);
    expect(stepped(ring, { kind: 'move', corner: 1, to: [5, 0] })).toEqual([[0, 0], [5, 0], [4, 2]]); // prettier-ignore
    expect(stepped(ring, { kind: 'takeOut', corner: 0 })).toEqual([[4, 0], [4, 2]]); // prettier-ignore
  });
  it('more stands halfway to the next; after the last one halfway to the first', () => {
    expect(stepped(ring, { kind: 'oneMore', corner: 0 })[1]).toEqual([2, 0]);
    expect(stepped(ring, { kind: 'oneMore', corner: 2 })[3]).toEqual([2, 1]);
  });
});
