import type { Quantity } from '@furrowmark/domain';
import { describe, expect, it } from '@jest/globals';
import { gal, id, ordinary } from '../testing/season.ts';
import { cameToNothing, teaLeft } from './draws.ts';

const household: Quantity = { value: 1, unit: '{measure}', measureId: id('a tote nobody measured') };
const litre = (value: number): Quantity => ({ value, unit: 'L' });

describe('a load came to nothing', () => {
  const load = (volume: Quantity, ends: readonly Quantity[], applied = false) => {
    const season = ordinary();
    const batch = season.batch('T-14').filled('06-01 05:00').airOn('06-01 05:00').fed('06-01 06:00', 'C-1');
    batch.drawn('06-02 08:00', 'load', volume);
    if (applied)
      batch.applied('A-1', '06-02 09:00', '06-02 10:00', 'North 4', gal(1), { draws: [{ drawId: id('load') }] });
    for (const [index, each] of ends.entries())
      season.add('draw.ended', `06-02 1${index + 1}:00`, { drawId: id('load'), volume: each, fate: 'dumped' });
    const draw = season.season().batch(id('T-14'))?.draws[0];
    if (draw === undefined) throw new Error('nothing was drawn');
    return cameToNothing(draw);
  };
  it.each<[string, Quantity, readonly Quantity[], boolean]>([
    ['nothing became of it yet', gal(100), [], false],
    ['a load of unknown size of which nothing became yet', household, [], false],
    ['all of it dumped', gal(100), [gal(100)], true],
    ['all of it dumped, in two goes', gal(100), [gal(60), gal(40)], true],
    ['all but a quart of it dumped', gal(100), [gal(60), gal(39.75)], false],
    ['of a litre all but a billionth, which no scale shows', litre(1), [litre(0.999999999)], true],
    ['of a litre all but a millionth', litre(1), [litre(0.999999)], false],
    ['nothing was in it, and that was dumped', gal(0), [gal(0)], true],
    ['some of an unknown size dumped', household, [gal(60)], true],
    ['some unknown part of it dumped', gal(100), [household], true],
  ])('%s', (_, volume, ends, nothing) => {
    expect(load(volume, ends)).toBe(nothing);
  });
  it('not one that was sprayed, whatever was dumped of it', () => {
    expect(load(gal(100), [gal(100)], true)).toBe(false);
  });
});

describe('tea is left', () => {
  const left = (drawn: number, closed = false) => {
    const season = ordinary();
    const batch = season.batch('T-14').filled('06-01 05:00', gal(250)).fed('06-01 06:00', 'C-1');
    batch.drawn('06-02 08:00', 'load', gal(drawn));
    if (closed) batch.closed('06-02 12:00');
    const found = season.season().batch(id('T-14'));
    if (found === undefined) throw new Error('no batch');
    return teaLeft(found);
  };
  // A tenth of what went in is the tolerance of the volume account: common practice, no source.
  it.each([
    [224, true],
    [226, false],
  ])('of 250 gal with %s gal drawn: %s', (drawn, is) => {
    expect(left(drawn)).toBe(is);
  });
  it('not in a batch that was closed', () => {
    expect(left(100, true)).toBe(false);
  });
});
