import { describe, expect, it } from '@jest/globals';
import { farm, harvest, id, made, printed, seasonOf, tableIn, wordsIn, type Line } from '../testing/season.ts';
import { harvestWhereabouts } from './harvest-whereabouts.ts';

const shipped = (when: string, value: number, unit = '[lb_av]'): Line => [
  'harvest.shipped',
  when,
  { harvestId: id('H-1'), quantity: { value, unit }, to: 'Corner market', reference: '' },
];

describe('where the harvest went', () => {
  it('has what was harvested, what was shipped and what is left of it, in the harvest’s own unit', () => {
    // 2400 lb harvested; 1200 lb and 100 kg (220.5 lb) shipped
    const content = made(harvestWhereabouts, seasonOf(...farm, ...harvest, shipped('08-28 08:00', 100, 'kg')), {});
    expect(printed(tableIn(content, 'harvests'))).toEqual([
      ['H-1', 'carrots', 'North', '2026-08-26', 'organic', '2,400.0', '1,420.5', '979.5', 'lb'],
    ]);
    expect(printed(tableIn(content, 'shipments'))).toEqual([
      ['2026-08-27', 'H-1', '1,200 lb', 'packing shed', 'BOL 118'],
      ['2026-08-28', 'H-1', '100 kg', 'Corner market', '–'],
    ]);
  });

  it('leaves open what cannot be converted, rather than counting it as nothing', () => {
    const content = made(harvestWhereabouts, seasonOf(...farm, ...harvest, shipped('08-28 08:00', 4, '{bunch}')), {});
    expect(printed(tableIn(content, 'harvests'))[0]?.slice(5, 8)).toEqual(['2,400.0', '–', '–']);
  });

  it('says so where more was shipped than harvested', () => {
    const over = made(harvestWhereabouts, seasonOf(...farm, ...harvest, shipped('08-28 08:00', 1300)), {});
    expect(wordsIn(over)).toContain('More was shipped than was harvested, by the records: H-1');
    expect(wordsIn(made(harvestWhereabouts, seasonOf(...farm, ...harvest), {}))).not.toContain('More was shipped');
  });

  it('lists harvests of the period with shipments that came later', () => {
    const content = made(harvestWhereabouts, seasonOf(...farm, ...harvest), { from: '2026-08-26', to: '2026-08-26' });
    expect(printed(tableIn(content, 'shipments'))).toHaveLength(1);
  });
});
