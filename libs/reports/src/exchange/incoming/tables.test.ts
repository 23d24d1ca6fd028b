import { describe, expect, it } from '@jest/globals';
import { parse } from 'csv-parse/sync';
import { openSeason, type LogRecord, type OpenSeason } from '@furrowmark/domain';
import { farm, given, id, made, operation, seasonOf, tableIn, type Line } from '../../testing/season.ts';
import { stock } from '../../reports/stock.ts';
import { csvOf } from '../../tables.ts';
import { importRequest, previewImport, type ImportPreview } from './index.ts';

const now = Date.parse('2026-05-10T12:00:00Z');
let made7 = 0;
const settingOf = (season: OpenSeason) => ({
  season,
  operationId: operation,
  now,
  newId: () => id(`new ${(made7 += 1)}`),
});
const season = seasonOf(...farm);
const preview = (as: string, text: string, more: object = {}, over = season): ImportPreview =>
  previewImport(importRequest.parse({ as, text, ...more }), settingOf(over));
const states = ({ rows }: ImportPreview): string[] => rows.map(({ state }) => state);
const problemsOf = ({ rows }: ImportPreview) =>
  rows.flatMap(({ line, problems }) => problems.map(({ column, detail }) => [line, column, detail]));
const dataOf = ({ rows }: ImportPreview) => rows.flatMap(({ records }) => records.map(({ data }) => data));

/** The season with what was accepted, as the log would hold it. */
function accepted({ rows }: ImportPreview, over: OpenSeason): OpenSeason {
  const before = over.written();
  const fresh = rows
    .flatMap(({ records }) => records)
    .map((sent, i) => ({
      ...sent,
      operationId: operation,
      seq: before.length + i,
      recordedAt: '2026-05-10T12:00:00Z',
      recordedBy: id('account'),
    }));
  return openSeason([...before, ...JSON.parse(JSON.stringify(fresh))] satisfies LogRecord[]);
}

describe('lots from a table', () => {
  const book = [
    'Lot no.,Product,Vendor lot,Qty,Unit,Date received,Use by',
    'FH-1,worm compost,S-77,"1,250",lbs,2026-04-12,2027-04-01',
    'FH-2,MO,,2.5,gallons,2026-04-13,',
  ].join('\r\n');

  it('are read by headers as people write them, with units in words', () => {
    const found = preview('lots', book);
    expect(problemsOf(found)).toEqual([]);
    expect(found.columns.map(({ member, column }) => [member, column])).toEqual([
      ['code', 'Lot no.'],
      ['material', 'Product'],
      ['supplierLot', 'Vendor lot'],
      ['quantity', 'Qty'],
      ['quantityUnit', 'Unit'],
      ['receivedOn', 'Date received'],
      ['expiresOn', 'Use by'],
      ['openingStock', null],
    ]);
    expect(dataOf(found)).toEqual([
      expect.objectContaining({
        code: 'FH-1',
        materialId: id('WC'),
        supplierLot: 'S-77',
        quantity: { value: 1250, unit: '[lb_av]' },
        expiresOn: '2027-04-01',
      }),
      expect.objectContaining({
        code: 'FH-2',
        materialId: id('MO'),
        supplierLot: '',
        quantity: { value: 2.5, unit: '[gal_us]' },
      }),
    ]);
    // The day begins at local midnight; copied from paper that was made at the time.
    expect(found.rows[0]?.records[0]).toMatchObject({
      type: 'lot.received',
      occurredAt: '2026-04-12T00:00:00-04:00',
      origin: 'fromPaper',
    });
  });

  it('taken twice are known the second time, and one row more is one record more', () => {
    const first = preview('lots', book);
    const after = accepted(first, season);
    expect(after.lot(String(Reflect.get(Object(dataOf(first)[0]), 'lotId')))?.code).toBe('FH-1');
    expect(states(preview('lots', book, {}, after))).toEqual(['known', 'known']);
    const longer = `${book}\r\nFH-3,MO,,1,gal,2026-04-14,`;
    expect(states(preview('lots', longer, {}, after))).toEqual(['known', 'known', 'good']);
    expect(JSON.stringify(preview('lots', book))).toBe(JSON.stringify(first));
  });

  it('another amount under a code that is recorded is a problem, not a second lot', () => {
    const found = preview('lots', 'code,material,quantity,date\nwc-1,WC,90 lb,2026-04-02');
    expect(problemsOf(found)).toEqual([[2, 'code', expect.stringContaining('a lot WC-1 is recorded already')]]);
  });

  it('each wrong cell is named by line, column and remedy; good rows stay good', () => {
    const found = preview(
      'lots',
      [
        'code;material;quantity;date',
        'A;WC;ten;2026-04-02',
        'B;turf;10 lb;2026-04-02',
        'C;WC;10;2026-04-02',
        'D;WC;10 acre;2026-04-02',
        'E;WC;10 lb;2026-02-30',
        'F;WC;-1 lb;2026-04-02',
        'G;WC;1 lb;2027-04-02',
        'A;WC;1 lb;2026-04-02',
        ';WC;1 lb;2026-04-02',
        'H;WC;1 lb;2026-04-02',
      ].join('\n'),
    );
    expect(found.delimiter).toBe(';');
    expect(states(found)).toEqual([...Array(9).fill('wrong'), 'good']);
    expect(problemsOf(found)).toEqual([
      [2, 'quantity', '“ten” is no number'],
      [3, 'material', expect.stringContaining('“turf” is no registered material')],
      [4, 'quantity', expect.stringContaining('has no unit')],
      [5, 'quantity', expect.stringContaining('“acre” is no unit of mass or volume or count')],
      [6, 'date', expect.stringContaining('does not exist')],
      [7, 'quantity', expect.stringContaining('must not be negative')],
      [8, 'date', expect.stringMatching(/24 h|future|ahead/i)],
      [9, 'code', 'repeats line 2: leave one of them out'],
      [10, 'code', 'is empty'],
    ]);
    expect(found.counts).toEqual({ good: 1, known: 0, leftOut: 0, wrong: 9 });
  });

  it('a column that cannot be found is asked for; it can be named, or left out', () => {
    const text = 'what,which,how much,when\nA,WC,10 lb,2026-04-02';
    const asked = preview('lots', text);
    expect(asked.rows).toEqual([]);
    expect(asked.asks).toContain('No column was found for “Lot code” (code): name one.');
    const named = preview('lots', text, {
      columns: { code: 'what', material: 'which', quantity: 'how much', receivedOn: 'when' },
    });
    expect(states(named)).toEqual(['good']);
    expect(preview('lots', text, { columns: { code: 'no such' } }).asks[0]).toContain(
      'The file has no column “no such”. It has: what, which, how much, when.',
    );
    const extra = 'code,material,quantity,date,expires\nA,WC,10 lb,2026-04-02,soon';
    expect(states(preview('lots', extra))).toEqual(['wrong']);
    expect(states(preview('lots', extra, { columns: { expiresOn: null } }))).toEqual(['good']);
  });

  it('6/3/2026 is asked about, 6/30/2026 is not; decimal commas are said for the file', () => {
    const dated = (date: string, more: object = {}) =>
      preview('lots', `code;material;quantity;date\nA;WC;10,5 lb;${date}`, { decimal: ',', ...more });
    expect(problemsOf(dated('6/3/2026'))).toEqual([
      [2, 'date', expect.stringContaining('say whether the month or the day comes first')],
    ]);
    expect(dated('4/3/2026', { dates: 'mdy' }).rows[0]?.records[0]?.occurredAt).toBe('2026-04-03T00:00:00-04:00');
    expect(dated('4/3/2026', { dates: 'dmy' }).rows[0]?.records[0]?.occurredAt).toBe('2026-03-04T00:00:00-05:00');
    expect(dated('4/30/2026').rows[0]?.records[0]?.occurredAt).toBe('2026-04-30T00:00:00-04:00');
    expect(dataOf(dated('2026-04-03'))).toEqual([
      expect.objectContaining({ quantity: { value: 10.5, unit: '[lb_av]' } }),
    ]);
    expect(problemsOf(preview('lots', 'code;material;quantity;date\nA;WC;10,5 lb;2026-04-03'))[0]?.[2]).toContain(
      'no number',
    );
  });

  it('what is no table, and a table that is too long, are said as such', () => {
    expect(preview('lots', '').asks).toEqual([expect.stringContaining('The file is empty')]);
    expect(preview('lots', `code,material,quantity,date\n${'A,WC,1 lb,2026-04-02\n'.repeat(2001)}`).asks[0]).toContain(
      'at most 2000',
    );
  });
});

describe('the program’s own tables', () => {
  // Text that spreadsheets run, quotes, line breaks, umlauts.
  const odd = ['=1+1', '+49', '-x', '@cmd', 'say "hi"', 'two\nlines', 'Möhren, 3', 'plain'];
  const lines: Line[] = odd.map((code, i) => [
    'lot.received',
    '04-03 08:00',
    { lotId: id(`odd ${i}`), code, materialId: id('WC'), supplierLot: '', quantity: { value: i + 1, unit: '[lb_av]' } },
  ]);
  const text = csvOf(tableIn(made(stock, seasonOf(...farm, ...lines), {}, { ...given }), 'stock'));

  it('are read by another parser as they were written, formulas disarmed by an apostrophe', () => {
    const [header, ...rows]: string[][] = parse(text);
    expect(header).toContain('Lot');
    const codes = rows.map(([code = '']) => code);
    for (const code of odd) expect(codes).toContain(/^[=+\-@]/.test(code) ? `'${code}` : code);
    expect(rows.every((row) => row.length === header?.length)).toBe(true);
  });

  it('come in again with the very same texts', () => {
    const found = preview(
      'lots',
      text,
      {
        columns: {
          code: 'Lot',
          material: 'Material',
          quantity: 'In stock',
          receivedOn: 'Received',
          quantityUnit: 'Unit',
          expiresOn: null,
        },
      },
      seasonOf(...farm.slice(0, 6)),
    );
    const codes = dataOf(found).map((data) => Reflect.get(Object(data), 'code'));
    expect(problemsOf(found)).toEqual([]);
    for (const code of odd) expect(codes).toContain(code);
  });
});

describe('materials, fields, plantings, people', () => {
  it('a material comes with its approval', () => {
    const found = preview(
      'materials',
      'Code,Name,Type,Animal origin,Microbial food,Approved by,Approved from,Approved until\nKE,kelp,extract,no,yes,certifier,2026-01-01,2026-12-31\nXX,mix,brew,maybe,yes,,,',
    );
    expect(found.rows[0]?.records.map(({ type }) => type)).toEqual(['material.registered', 'material.approved']);
    expect(dataOf(found)[1]).toMatchObject({ by: 'certifier', from: '2026-01-01', until: '2026-12-31' });
    expect(problemsOf(found)).toEqual([
      [3, 'Type', expect.stringContaining('“brew” is none of: compost')],
      [3, 'Animal origin', expect.stringContaining('“maybe” is none of')],
    ]);
    expect(
      states(
        preview(
          'materials',
          'Code,Name,Type,Animal origin,Microbial food\nWC,worm compost,vermicompost,yes,no\nMO,syrup,nutrient,no,yes',
        ),
      ),
    ).toEqual(['known', 'wrong']);
  });

  it('beds find their field in the same file, whichever comes first; acres are the unit of a column called so', () => {
    const found = preview(
      'fields',
      'Field,Type,Lies within,Acres,Land status\nS-1,bed,South,0.25,Organic\nSouth,field,,4.5,in transition',
    );
    expect(problemsOf(found)).toEqual([]);
    const [bed, field] = dataOf(found).map((data) => Object(data));
    expect(field).toMatchObject({ code: 'South', landStatus: 'transition', area: { value: 4.5, unit: '[acr_us]' } });
    expect(bed.parentId).toBe(field.fieldId);
    const after = accepted(found, season);
    expect(after.sameGround(field.fieldId).has(bed.fieldId)).toBe(true);
    expect(
      states(preview('fields', 'Field,Land status\nSouth,transition\nNorth,conventional\nA,fallow', {}, after)),
    ).toEqual(['known', 'wrong', 'wrong']);
  });

  it('a planting may have only a year; its field must be registered', () => {
    const found = preview(
      'plantings',
      'Field,Crop,Edible part,Planted\nNorth,apples,tree,2019\nnorth,leeks,Stem,2026-04-20\nWest,leeks,stem,2026',
    );
    expect(dataOf(found)).toEqual([
      expect.objectContaining({ fieldId: id('North'), plantedOn: '2019', ediblePart: 'tree' }),
      expect.objectContaining({ fieldId: id('North'), plantedOn: '2026-04-20' }),
    ]);
    expect(problemsOf(found)).toEqual([[4, 'Field', expect.stringContaining('“West” is no registered field')]]);
    expect(states(preview('plantings', 'Field,Crop,Edible part,Planted\nNorth,carrots,root,2026-04-05'))).toEqual([
      'known',
    ]);
  });

  it('people get ids that tell nothing of their names; e-mail addresses are refused; the known are known', () => {
    const text =
      'Name,Position,Address,Language\nTobin Quay,crew,3 Mill Road,Spanish\nInes Harrow,,,\nAda Lund,ada@farm.example,,';
    const [a, b] = [preview('people', text), preview('people', text)];
    expect(dataOf(a)).toEqual([
      expect.objectContaining({
        personal: { name: 'Tobin Quay', title: 'crew', address: '3 Mill Road' },
        language: 'es',
      }),
    ]);
    expect(states(a)).toEqual(['good', 'known', 'wrong']);
    expect(problemsOf(a)).toEqual([[4, 'Position', expect.stringContaining('never enter a record')]]);
    expect(a.rows[0]?.records[0]?.id).not.toBe(b.rows[0]?.records[0]?.id);
    expect(Reflect.get(Object(dataOf(a)[0]), 'personId')).not.toBe(Reflect.get(Object(dataOf(b)[0]), 'personId'));
  });
});
