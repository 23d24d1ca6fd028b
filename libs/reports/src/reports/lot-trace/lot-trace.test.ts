import { describe, expect, it } from '@jest/globals';
import type { TraceFlow } from '../../content.ts';
import { brew, farm, harvest, id, loads, made, printed, seasonOf, tableIn } from '../../testing/season.ts';
import { lotTrace } from './lot-trace.ts';

const season = seasonOf(...farm, ...brew, ...loads, ...harvest);
const content = made(lotTrace, season, { lot: id('WC-1') });

describe('a lot trace', () => {
  it('accounts for all of the lot: 10 of 100 lb in 300 gal of tea, drawn, dumped and left as well mixed', () => {
    // 10 lb in 300 gal: 1/30 lb a gallon. North 112 + 50, East 100, dumped 8, left in the tank 30.
    expect(printed(tableIn(content, 'account'))).toEqual([
      ['North', 'reached the field', '5.400', '5.4'],
      ['East', 'reached the field', '3.333', '3.3'],
      expect.arrayContaining(['dumped with a rest', '0.267', '0.3']),
      expect.arrayContaining(['T-1', 'left in the tank', '1.000', '1.0']),
      ['WC-1', 'left in stock', '90.000', '90.0'],
    ]);
  });

  it('prints a total that is the sum of the lines and the whole of the lot', () => {
    const { rows, total } = tableIn(content, 'account');
    const sum = rows.reduce((all, row) => all + Number(row[2]?.value), 0);
    expect(sum).toBeCloseTo(100, 9);
    expect(total?.map(({ text }) => text)).toEqual(['Total', 'Came in: 100 lb.', '100.000', '100.0']);
  });

  it('draws the lot left, then batch, fields, harvest and shipment, with the weight of each band', () => {
    const flow = content.blocks.find((block): block is TraceFlow => block.kind === 'traceFlow');
    expect(flow?.columns.map(({ nodes }) => nodes.map(({ label }) => label))).toEqual([
      ['WC-1'],
      ['T-1'],
      ['North', 'East'],
      ['H-1'],
      ['BOL 118'],
    ]);
    const weights = new Map(flow?.edges.map(({ from, to, weight }) => [`${from}>${to}`, weight]));
    expect(weights.get(`${id('WC-1')}>${id('T-1')}`)).toBeCloseTo(10, 9);
    expect(weights.get(`${id('T-1')}>${id('North')}`)).toBeCloseTo(5.4, 9);
    expect(weights.get(`${id('North')}>${id('H-1')}`)).toBe(0);
  });

  it('lists the harvest and its shipment as reached, and every step with its record', () => {
    expect(printed(tableIn(content, 'reached'))).toEqual(
      expect.arrayContaining([
        expect.arrayContaining(['harvest', 'H-1', 'North, 2,400 lb']),
        expect.arrayContaining(['shipment', 'packing shed, 1,200 lb']),
      ]),
    );
    const steps = tableIn(content, 'steps').rows;
    expect(steps.every((row) => typeof row[4]?.value === 'number')).toBe(true);
  });

  it('warns of a recall at the top', () => {
    const recalled = seasonOf(...farm, ...brew, [
      'lot.recalled',
      '05-01 08:00',
      { lotId: id('WC-1'), reason: 'notice of 1 May' },
    ]);
    expect(made(lotTrace, recalled, { lot: id('WC-1') }).blocks[1]).toMatchObject({ kind: 'note', tone: 'caution' });
  });
});
