import { describe, expect, it } from '@jest/globals';
import type { TraceFlow } from '../../content.ts';
import {
  acres,
  at,
  brew,
  farm,
  gal,
  harvest,
  id,
  lb,
  loads,
  made,
  printed,
  seasonOf,
  tableIn,
  type Line,
} from '../../testing/season.ts';
import { recallSheet } from '../recall-sheet.ts';
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
    expect(made(lotTrace, recalled, { lot: id('WC-1') }).blocks[1]).toEqual({
      kind: 'note',
      tone: 'caution',
      text: 'Recalled on 2026-05-01 08:00: notice of 1 May. What it reached is below; the recall sheet lists whom to tell.',
    });
    // The sheet itself sends nobody to the sheet.
    expect(made(recallSheet, recalled, { lot: id('WC-1') }).blocks[1]).toMatchObject({
      text: 'Recalled on 2026-05-01 08:00: notice of 1 May.',
    });
  });

  it('says in the box what several bands bring together: a figure beside one of them would be read as all of it', () => {
    // 20 lb in 300 gal of a second batch; 60 gal of it, 4 lb, on North, which had 5.4 lb of the first.
    const second: readonly Line[] = [
      ['batch.opened', '05-04 08:00', { batchId: id('T-2'), code: 'T-2', kind: 'aeratedTea', vesselId: id('tote') }],
      ['batch.filled', '05-04 08:30', { batchId: id('T-2'), sourceId: id('well'), volume: gal(300) }],
      ['batch.ingredientAdded', '05-04 09:00', { batchId: id('T-2'), lotId: id('WC-1'), quantity: lb(20) }],
      [
        'application.made',
        '05-05 12:00',
        {
          ...{ applicationId: id('A-3'), code: 'A-3', method: 'soilDrench', edibleParts: 'absent' },
          ...{ targets: [{ fieldId: id('North'), area: acres(4) }], draws: [{ batchId: id('T-2'), volume: gal(60) }] },
          ...{ startedAt: at('05-05 11:00'), finishedAt: at('05-05 12:00'), applicator: id('Ines') },
        },
      ],
    ];
    const flow = made(lotTrace, seasonOf(...farm, ...brew, ...loads, ...second), { lot: id('WC-1') }).blocks.find(
      (block): block is TraceFlow => block.kind === 'traceFlow',
    );
    const fields = flow?.columns.at(-1)?.nodes.map(({ label, detail }) => [label, detail]);
    expect(fields).toEqual([
      ['North', '9.4 lb'],
      ['East', undefined],
    ]);
    const labels = new Map(flow?.edges.map(({ from, to, label }) => [`${from}>${to}`, label]));
    expect(labels.get(`${id('T-1')}>${id('North')}`)).toBe('');
    expect(labels.get(`${id('T-2')}>${id('North')}`)).toBe('');
    expect(labels.get(`${id('T-1')}>${id('East')}`)).toBe('3.33 lb');
  });

  it('names the batch whose tea others got, not the record that says so', () => {
    const supplied: Line = [
      'tea.supplied',
      '04-21 12:00',
      { batchId: id('T-1'), volume: gal(5), to: { name: 'next farm' }, statementGiven: 'yes', sold: 'no' },
    ];
    const trace = made(lotTrace, seasonOf(...farm, ...brew, supplied), { lot: id('WC-1') });
    expect(printed(tableIn(trace, 'unresolved')).map(([thing]) => thing)).toEqual(['T-1']);
    const spanish = made(lotTrace, seasonOf(...farm, ...brew, supplied), { lot: id('WC-1') }, { language: 'es' });
    expect(printed(tableIn(spanish, 'unresolved')).map(([, why]) => why)).toEqual([
      'té entregado a next farm; dónde lo usaron está en sus registros',
    ]);
  });

  it('back from own compost ends at the lots of suppliers: from whom, and under which lot of theirs', () => {
    const pile: readonly Line[] = [
      [
        'pile.started',
        '04-03 09:00',
        { pileId: id('P-1'), code: 'P-1', method: 'windrow', inputs: [{ lotId: id('WC-1'), quantity: lb(50) }] },
      ],
      [
        'pile.finished',
        '06-30 09:00',
        { pileId: id('P-1'), lotId: id('OC-1'), code: 'OC-1', materialId: id('WC'), quantity: lb(30) },
      ],
    ];
    const back = made(lotTrace, seasonOf(...farm, ...pile), { lot: id('OC-1'), direction: 'backward' });
    expect(printed(tableIn(back, 'supplied'))).toEqual([
      ['WC-1', 'worm compost', 'not recorded', 'S7', '2026-04-02', '100 lb'],
    ]);
    // What is carried as data has names and units, as on paper.
    const steps = tableIn(back, 'steps').rows.map((row) => [row[1], row[3]].map((cell) => cell?.value ?? cell?.text));
    expect(steps).toEqual([
      ['lot WC-1', '50 lb'],
      ['pile P-1', '30 lb'],
    ]);
  });
});
