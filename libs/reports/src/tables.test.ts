import { describe, expect, it } from '@jest/globals';
import type { ReportContent, TableBlock, VerdictLine } from './content.ts';
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

const reportOf = (blocks: ReportContent['blocks']): ReportContent => ({
  kind: 'stock',
  title: 'Stock',
  language: 'en',
  operation: { name: 'Quillfen Growers', timeZone: 'America/New_York' },
  preparedAt: '2026-11-02 10:15',
  log: { size: 3, root: 'r' },
  blocks,
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

  it('names a column without the sign that paper has before it, not as a formula made harmless', () => {
    const columns = ['+ Received', '− Used', '= Closing', '+1'].map((label) => ({
      key: label,
      label,
      type: 'number' as const,
    }));
    expect(csvOf({ ...table([]), columns })).toBe("Received,Used,Closing,'+1\r\n");
  });

  it('leaves unknown values empty', () => {
    expect(csvOf(table([[{ text: 'x' }, { text: 'not recorded', value: null }]]))).toBe('Lot,"Amount, lb"\r\nx,\r\n');
  });
});

describe('verdicts as CSV', () => {
  const line: VerdictLine = {
    ...{ mark: 'broken', word: 'outside your limit', title: 'Applied soon', about: 'draw T-5', message: 'Held 9 h.' },
    ...{ citation: 'common practice, no source', figures: 'hold time 9 h (limit 8)' },
    notes: [
      { term: 'Cause', value: 'pump failed' },
      { term: 'Action', value: 'spare bought' },
    ],
  };
  const content = reportOf([table([]), { kind: 'verdicts', items: [line] }, { kind: 'verdicts', items: [] }]);

  it('are tables beside the others: what broke a limit is not only on paper', () => {
    expect(tablesOf(content).map(({ name }) => name)).toEqual(['lots', 'verdicts', 'verdicts-2']);
    const [, verdicts] = tablesOf(content);
    expect(verdicts === undefined ? '' : csvOf(verdicts)).toBe(
      'Verdict,Rule,About,Says,Figures,Source,"Cause, action, records"\r\n' +
        'outside your limit,Applied soon,draw T-5,Held 9 h.,hold time 9 h (limit 8),"common practice, no source",' +
        'Cause: pump failed; Action: spare bought\r\n',
    );
  });
});

describe('a report as JSON', () => {
  const content = reportOf([
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
  ]);

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
