import { describe, expect, it } from '@jest/globals';
import {
  brew,
  farm,
  given,
  harvest,
  id,
  lb,
  loads,
  made,
  printed,
  seasonOf,
  tableIn,
  wordsIn,
  type Line,
} from '../testing/season.ts';
import { traceabilityEvents } from './traceability-events.ts';
import { traceabilityList } from './traceability-list.ts';

const outline = {
  type: 'Polygon',
  coordinates: [
    [
      [-76, 42],
      [-75.998, 42],
      [-75.998, 42.002],
      [-76, 42.002],
      [-76, 42],
    ],
  ],
};
const drawn: Line = ['field.revised', '04-02 08:00', { fieldId: id('North'), boundary: outline }];
const second: Line = [
  'harvest.shipped',
  '08-28 07:00',
  {
    harvestId: id('H-1'),
    quantity: { value: 3, unit: '{measure}', measureId: id('crate') },
    to: 'Corner market',
    reference: '',
  },
];
const crate: Line = [
  'measure.registered',
  '04-01 08:00',
  { measureId: id('crate'), name: 'crate', equals: lb(40), weighedOn: '2026-04-01' },
];
const content = made(traceabilityList, seasonOf(...farm, drawn, crate, ...harvest, second), {});

describe('the traceability list sheet', () => {
  it('has per harvest: lot, commodity, quantity, unit, growing area, date, recipients, references', () => {
    expect(printed(tableIn(content, 'harvesting'))).toEqual([
      ['H-1', 'carrots', '2400', 'lb', 'North', '2026-08-26', 'packing shed; Corner market', 'BOL 118'],
    ]);
  });

  it('says what 21 CFR 1.1340 asks for and no record holds, so that nobody takes the sheet for all of it', () => {
    expect(wordsIn(content)).toContain('source of the traceability lot code');
  });

  it('has per shipment: lot, commodity, quantity, unit, date, recipient, reference; crates by their registered weight', () => {
    expect(printed(tableIn(content, 'shipping'))).toEqual([
      ['H-1', 'carrots', '1200', 'lb', '2026-08-27', 'packing shed', 'BOL 118'],
      // 3 crates × 40 lb
      ['H-1', 'carrots', '120', 'lb', '2026-08-28', 'Corner market', '–'],
    ]);
  });

  it('has the coordinates of each growing area (21 CFR 1.1315(a)(5)), latitude and longitude apart', () => {
    expect(printed(tableIn(content, 'growing-areas'))).toEqual([
      ['North', '–', '42.00100', '-75.99900', '6.00', 'acre'],
    ]);
  });

  it('leaves coordinates open where no outline is recorded, and names no compliance', () => {
    const bare = made(traceabilityList, seasonOf(...farm, ...harvest), {});
    expect(printed(tableIn(bare, 'growing-areas'))[0]?.slice(2, 4)).toEqual(['–', '–']);
    expect(wordsIn(bare)).toContain('is not decided here');
  });

  it('lists the ground of what was shipped in the period, though it was harvested before', () => {
    const late = made(traceabilityList, seasonOf(...farm, ...harvest), { from: '2026-08-27' });
    expect(printed(tableIn(late, 'harvesting'))).toEqual([]);
    expect(printed(tableIn(late, 'shipping'))).toHaveLength(1);
    expect(printed(tableIn(late, 'growing-areas'))[0]?.[0]).toBe('North');
  });
});

describe('traceability events', () => {
  const season = seasonOf(...farm, ...harvest);

  it('print what is in the linked data, by name', () => {
    const rows = printed(tableIn(made(traceabilityEvents, season, {}), 'events'));
    expect(rows.map(([, step, what, , place]) => [step, what, place])).toEqual(
      expect.arrayContaining([
        ['received', 'WC-1 100 lb', 'Quillfen Growers'],
        ['harvested', 'H-1 2,400 lb', 'North'],
        ['shipped', 'H-1 1,200 lb', 'Quillfen Growers'],
      ]),
    );
  });

  it('print tea in the operation’s own unit, whatever EPCIS has it in', () => {
    const tea = printed(tableIn(made(traceabilityEvents, seasonOf(...farm, ...brew, ...loads), {}), 'events'));
    expect(tea.map(([, step, what, into]) => [step, what, into])).toContainEqual([
      'brewed or composted',
      'Barn well 300 gal; WC-1 10 lb',
      'T-1 300 gal',
    ]);
    // 112 of the first load on North, 8 having been dumped.
    expect(tea.map(([, step, what]) => [step, what])).toContainEqual(['applied', 'T-1 112 gal']);
  });

  it('refuse a GS1 key whose check digit is wrong', () => {
    const asked = (parameters: object) => traceabilityEvents.linkedData?.(season, parameters, given);
    // 629104150021 has the check digit 3 (GS1's own example).
    expect(asked({ gln: '6291041500214' })).toEqual({
      reason: 'parameters',
      faults: [{ parameter: 'gln', detail: 'ends in the wrong check digit: 3 belongs there; check the digits' }],
    });
    expect(asked({ gtin: `${id('WC')}:6291041500214` })).toMatchObject({
      reason: 'parameters',
      faults: [{ parameter: 'gtin' }],
    });
    expect(asked({ gtin: 'WC:6291041500213' })).toMatchObject({ reason: 'parameters' });
    expect(JSON.stringify(asked({ gtin: `${id('WC')}:6291041500213` }))).toContain(
      'https://id.gs1.org/01/06291041500213/10/WC-1',
    );
  });
});
