import { describe, expect, it } from '@jest/globals';
import { resolveMeasure } from './measure.ts';

describe('household measures', () => {
  const measures = (id: string) =>
    id === 'bucket'
      ? { equals: { value: 14.5, unit: '[lb_av]' } }
      : id === 'loop'
        ? { equals: { value: 2, unit: '{measure}' } }
        : undefined;

  it('half a bucket weighed at 14.5 lb is 7.25 lb', () => {
    const worth = resolveMeasure({ value: 0.5, unit: '{measure}', measureId: 'bucket' }, measures);
    expect([worth?.value.toFixed(), worth?.unit]).toEqual(['7.25', '[lb_av]']);
  });
  it('a quantity in a proper unit is worth itself', () => {
    const worth = resolveMeasure({ value: 3, unit: 'L' }, measures);
    expect([worth?.value.toFixed(), worth?.unit]).toEqual(['3', 'L']);
  });
  it('a measure nobody registered, or one defined by a measure, has no worth yet', () => {
    expect(resolveMeasure({ value: 1, unit: '{measure}', measureId: 'scoop' }, measures)).toBeNull();
    expect(resolveMeasure({ value: 1, unit: '{measure}' }, measures)).toBeNull();
    expect(resolveMeasure({ value: 1, unit: '{measure}', measureId: 'loop' }, measures)).toBeNull();
  });
});
