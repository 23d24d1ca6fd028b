import { describe, expect, it } from '@jest/globals';
import * as domain from '@furrowmark/domain';
import { doubtIn } from './doubt.ts';

const vessel = (total: object, working: object) =>
  doubtIn('vessel.registered', { totalVolume: total, workingVolume: working }, domain);
const gallons = (value: number) => ({ value, unit: '[gal_us]' });

describe('what is asked about before it is registered', () => {
  it('a tank is not filled above its rim', () => {
    expect(vessel(gallons(330), gallons(331))).toBe('overRim');
    expect(vessel(gallons(330), gallons(330))).toBe(null);
  });
  it('in whatever units the two are written: 330 gal are 1249 L', () => {
    expect(vessel(gallons(330), { value: 1250, unit: 'L' })).toBe('overRim');
    expect(vessel(gallons(330), { value: 1249, unit: 'L' })).toBe(null);
  });
  it('nothing is compared that does not convert, or is not written', () => {
    expect(vessel(gallons(330), { value: 400, unit: '{measure}', measureId: 'x' })).toBe(null);
    expect(doubtIn('vessel.registered', { totalVolume: gallons(330) }, domain)).toBe(null);
    expect(doubtIn('field.registered', { totalVolume: gallons(1), workingVolume: gallons(2) }, domain)).toBe(null);
  });
  const field = (...corners: readonly (readonly number[])[]) =>
    doubtIn(
      'field.registered',
      { boundary: { type: 'Polygon', coordinates: [[...corners, ...corners.slice(0, 1)]] } },
      domain,
    );
  it('an outline is walked around, and does not cross itself', () => {
    expect(field([-93.1, 41], [-93.099, 41], [-93.099, 41.001], [-93.1, 41.001])).toBe(null);
    expect(field([-93.1, 41], [-93.099, 41.001], [-93.099, 41], [-93.1, 41.001])).toBe('oddOutline');
    expect(field([-93.1, 41], [-93.1, 41.001], [-93.1, 41.002])).toBe('oddOutline');
  });
  it('nothing is farmed near a pole: there the latitude was written first', () => {
    expect(field([-74, 42], [-74, 42.001], [-74.001, 42.001])).toBe(null);
    expect(field([41, -93.1], [41, -93.099], [41.001, -93.099])).toBe('oddOutline');
  });
});
