import { spawnSync } from 'node:child_process';
import { describe, expect, it } from '@jest/globals';
import { csvOf, type TableBlock } from '@furrowmark/reports';
import fc from 'fast-check';

/** Many CSV texts, as Python's csv module (RFC 4180 in its default dialect, `excel`) reads them. */
function readByPython(texts: readonly string[]): string[][][] {
  const program = [
    'import csv, io, json, sys',
    'texts = json.load(sys.stdin)',
    'json.dump([list(csv.reader(io.StringIO(text, newline=""), strict=True)) for text in texts], sys.stdout)',
  ].join('\n');
  const { stdout, stderr, error } = spawnSync('python3', ['-c', program], {
    input: JSON.stringify(texts),
    encoding: 'utf8',
    maxBuffer: 1 << 28,
  });
  if (error !== undefined) throw new Error('python3 did not run', { cause: error });
  expect(stderr).toBe('');
  return JSON.parse(stdout);
}

const table = (label: string, cells: readonly string[]): TableBlock => ({
  kind: 'table',
  name: 'notes',
  caption: '',
  columns: [
    { key: 'note', label, type: 'text' },
    { key: 'gallons', label: 'gal', type: 'number' },
  ],
  rows: cells.map((text, index) => [{ text }, { text: '', value: -index }]),
});
/** What a spreadsheet would run as a formula is shielded by an apostrophe (OWASP, “CSV Injection”). */
const shielded = (text: string): string => (/^[=+\-@\t\r\n＝＋－＠]/.test(text) ? `'${text}` : text);

describe('CSV, by a reader that is not ours', () => {
  it('comes back cell by cell: formulas shielded, quotes, line breaks, umlauts, negative numbers as they are', () => {
    const told = [
      '=1+1',
      'say "no"',
      'one\ntwo',
      'one\r\ntwo',
      'Käse, Größe',
      'a,b',
      '',
      ' ',
      '"',
      '🧪 堆肥',
      '-3 gal',
    ];
    const [rows = []] = readByPython([csvOf(table('note', told))]);
    expect(rows).toEqual([['note', 'gal'], ...told.map((text, index) => [shielded(text), String(-index)])]);
  });

  it('comes back whatever was written', () => {
    const text = fc.oneof(
      fc.string({ unit: 'grapheme', maxLength: 20 }),
      fc.string({ unit: fc.constantFrom('"', ',', '\n', '\r', '=', "'", ';', '\t', 'ñ'), maxLength: 8 }),
    );
    const tables = fc.sample(fc.tuple(text, fc.array(text, { maxLength: 6 })), { seed: 61126, numRuns: 2000 });
    const read = readByPython(tables.map(([label, cells]) => csvOf(table(label, cells))));
    const expected = tables.map(([label, cells]) => [
      [shielded(label), 'gal'],
      ...cells.map((each, index) => [shielded(each), String(-index)]),
    ]);
    expect(read).toEqual(expected);
  });
});
