import { describe, expect, it } from '@jest/globals';
import * as domain from '@furrowmark/domain';
import { doubtOf } from './doubt.ts';

const litres = (value: number) => ({ toNumber: () => value });
/** A batch with one load of 40 gal (151.416 L), of which something is told already. */
const known = (told: readonly number[] = []) => ({
  season: {
    batch: (id: string) =>
      id === 'T-14'
        ? { draws: [{ id: 'load', litres: litres(151.416), ended: told.map((each) => ({ litres: litres(each) })) }] }
        : undefined,
  },
  engine: { domain },
});
const rest = (gallons: number, data: object = { fate: 'dumped' }, of = known()) =>
  doubtOf(
    { type: 'draw.ended', data: { drawId: 'load', volume: { value: gallons, unit: '[gal_us]' }, ...data } },
    { batchId: 'T-14' },
    of,
  );

describe('what is asked about before the rest of a load is recorded', () => {
  it('no more is left of a load than it held', () => {
    expect([rest(40), rest(41)]).toEqual([null, 'restAboveLoad']);
  });
  it('nor than it held after what was told of it before: 10 gal (37.85 L) of 40 dumped leave 30', () => {
    expect([rest(30, undefined, known([37.854])), rest(31, undefined, known([37.854]))]).toEqual([
      null,
      'restAboveLoad',
    ]);
  });
  it('of a load that is not known nothing is said', () => {
    const volume = { value: 500, unit: 'L' };
    expect(doubtOf({ type: 'draw.ended', data: { volume } }, { batchId: 'T-15' }, known())).toBe(null);
  });
  it('tea carried over went into another tea, which the trace needs', () => {
    expect(rest(5, { fate: 'carriedOver' })).toBe('restLeadsNowhere');
    expect(rest(5, { fate: 'carriedOver', intoBatchId: 'T-15' })).toBe(null);
    expect(rest(5, { fate: 'putBack' })).toBe(null);
  });
});
