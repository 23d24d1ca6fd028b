import { describe, expect, it } from '@jest/globals';
import { epcisDocument, type Wanted } from '../exchange/epcis/index.ts';
import { harvestWhereabouts } from '../reports/harvest-whereabouts.ts';
import { massBalance } from '../reports/mass-balance.ts';
import { recallSheet } from '../reports/recall-sheet.ts';
import { traceabilityList } from '../reports/traceability-list.ts';
import { batchRecord } from '../reports/batch-record/batch-record.ts';
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
  type Line,
} from '../testing/season.ts';

/** A scoop and a crate, weighed in April and anew in the summer: what is written with them is of either weight. */
const measured = (name: string, was: number, is: number, from: string): Line[] => [
  ['measure.registered', '04-01 08:00', { measureId: id(name), name, equals: lb(was), weighedOn: '2026-04-01' }],
  ['measure.revised', from, { measureId: id(name), equals: lb(is), weighedOn: `2026-${from.slice(0, 5)}` }],
];
const inMeasures = (value: number, name: string) => ({ value, unit: '{measure}', measureId: id(name) });
const scoops = (when: string): Line => [
  'batch.ingredientAdded',
  when,
  { batchId: id('T-1'), lotId: id('WC-1'), quantity: inMeasures(2, 'scoop') },
];
const shipped = (when: string, to: string): Line => [
  'harvest.shipped',
  when,
  { harvestId: id('H-1'), quantity: inMeasures(3, 'crate'), to, reference: '' },
];
const season = seasonOf(
  ...farm,
  ...measured('scoop', 1, 1.5, '04-20 23:59'),
  ...measured('crate', 40, 44, '08-28 06:00'),
  ...brew,
  scoops('04-20 09:05'),
  ...loads,
  ...harvest,
  shipped('08-27 12:00', 'Corner market'),
  shipped('08-28 12:00', 'Hill kitchen'),
);
const texts = (rows: readonly (readonly string[])[]): string => rows.map((row) => row.join(' | ')).join('\n');

describe('what is written in scoops and crates is told at their weight on that day, in every report', () => {
  it('in the batch record: 2 scoops of 1 lb, though a scoop is 1.5 lb since the evening', () => {
    const rows = printed(tableIn(made(batchRecord, season, { batch: id('T-1') }), 'ingredients'));
    expect(texts(rows)).toContain('2 × scoop (2 lb)');
  });

  it('as the mass balance counts it: 10 lb and 2 scoops are 12 lb', () => {
    const rows = printed(tableIn(made(massBalance, season, { from: '2026-01-01', to: '2026-10-31' }), 'inputs'));
    const [, , unit, opening, received, used] = rows.find(([lot]) => lot === 'WC-1') ?? [];
    expect([unit, opening, received, used]).toEqual(['lb', '0.000', '100.000', '12.000']);
  });

  it('in the list of shipments and in the account of the harvest: 3 crates of 40 lb, then 3 of 44', () => {
    const listed = printed(tableIn(made(traceabilityList, season, {}), 'shipping'));
    expect(listed.filter(([, , amount]) => amount !== '1200').map((row) => row.slice(2, 4))).toEqual([
      ['120', 'lb'],
      ['132', 'lb'],
    ]);
    // 1200 lb in sacks, 120 and 132 in crates.
    expect(texts(printed(tableIn(made(harvestWhereabouts, season, {}), 'harvests')))).toContain(
      '| 1,452.0 | 948.0 | lb',
    );
  });

  it('on the recall sheet, for whoever is to be told', () => {
    const rows = texts(printed(tableIn(made(recallSheet, season, { lot: id('WC-1') }), 'tell')));
    expect(rows).toContain('3 × crate (120 lb)');
    expect(rows).toContain('3 × crate (132 lb)');
  });

  it('in traceability events', () => {
    const always: Wanted = { period: { from: '1970-01-01', to: '2999-12-31', start: -Infinity, end: Infinity } };
    const events = epcisDocument(season, given, always).epcisBody.eventList;
    expect(events.filter(({ bizStep }) => bizStep === 'shipping')).toMatchObject(
      [1200, 120, 132].map((quantity) => ({ quantityList: [{ quantity, uom: 'LBR' }] })),
    );
    expect(events.find((event) => event['furrowmark:code'] === 'T-1')).toMatchObject({
      inputQuantityList: [{ uom: 'GLL' }, { quantity: 10, uom: 'LBR' }, { quantity: 2, uom: 'LBR' }],
    });
  });
});
