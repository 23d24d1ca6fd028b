import { describe, expect, it } from '@jest/globals';
import type { ReportContent, TableBlock } from './content.ts';
import { csvOf, jsonOf, tablesOf } from './tables.ts';

const table = (rows: TableBlock['rows']): TableBlock => ({
  kind: 'table',
  name: 'lots',
  caption: 'Lots',
  columns: [
    { key: 'lot', label: 'Lot', type: 'text' },
    { key: 'amount', label: 'Amount, lb', type: 'number' },
  ],
  rows,
});

describe('a table as CSV', () => {
  it('quotes commas, quotation marks and line breaks as RFC 4180 section 2 says, and ends lines with CRLF', () => {
    expect(csvOf(table([[{ text: 'a "b", c\nd' }, { text: '7.00', value: 7 }]]))).toBe(
      'Lot,"Amount, lb"\r\n"a ""b"", c\nd",7\r\n',
    );
  });

  it.each(['=1+1', '+1', '-1', '@SUM(A1)', '\t=1', '\r=1', '\n=1', '＝1+1', '＠SUM(A1)'])(
    'never lets the text %j run as a formula',
    (text) => {
      const csv = csvOf(table([[{ text }, { text: '' }]]));
      expect(csv.split('\r\n').slice(1).join('\r\n')).toMatch(/^"?'/);
    },
  );

  it('leaves a negative number in a column of numbers a number', () => {
    expect(csvOf(table([[{ text: 'x' }, { text: '−3.5', value: -3.5 }]]))).toContain('\r\nx,-3.5\r\n');
  });

  it('does not trust text in a column of numbers', () => {
    expect(csvOf(table([[{ text: 'x' }, { text: '-1+cmd' }]]))).toContain("x,'-1+cmd");
  });

  it('leaves unknown values empty', () => {
    expect(csvOf(table([[{ text: 'x' }, { text: 'not recorded', value: null }]]))).toBe('Lot,"Amount, lb"\r\nx,\r\n');
  });
});

describe('a report as JSON', () => {
  const content: ReportContent = {
    kind: 'stock',
    title: 'Stock',
    language: 'en',
    operation: { name: 'Quillfen Growers', timeZone: 'America/New_York' },
    preparedAt: '2026-11-02 10:15',
    log: { size: 3, root: 'r' },
    blocks: [
      { kind: 'heading', level: 2, text: 'Lots' },
      table([
        [
          { text: 'WC', was: 'WX' },
          { text: '7.00', value: 7 },
        ],
      ]),
      { kind: 'pageBreak' },
      table([
        [
          { text: 'FH', struck: true },
          { text: '—', value: null },
        ],
      ]),
    ],
  };

  it('carries values by column, originals and strikes beside them, and no pages', () => {
    expect(jsonOf(content)).toMatchObject({
      kind: 'stock',
      log: { size: 3 },
      blocks: [
        { kind: 'heading', text: 'Lots' },
        { name: 'lots', rows: [{ lot: 'WC', lotWas: 'WX', amount: 7 }] },
        { name: 'lots-2', rows: [{ lot: 'FH', amount: null, struck: true }] },
      ],
    });
  });

  it('names tables apart', () => {
    expect(tablesOf(content).map(({ name }) => name)).toEqual(['lots', 'lots-2']);
  });
});
