import type { Block, Cell, ReportContent, TableBlock, VerdictLine } from './content.ts';
import { wordsOf } from './words/index.ts';

/** Verdicts as a table: a list of findings that nobody can sort is of little use beside one of what was met. */
function verdictTable(items: readonly VerdictLine[], language: ReportContent['language']): TableBlock {
  const { verdict, rule, about, says, figures, source, further } = wordsOf(language).verdictTable;
  return {
    kind: 'table',
    name: 'verdicts',
    caption: '',
    columns: [
      { key: 'verdict', label: verdict, type: 'verdict' },
      { key: 'rule', label: rule, type: 'text' },
      { key: 'about', label: about, type: 'text' },
      { key: 'says', label: says, type: 'text' },
      { key: 'figures', label: figures, type: 'text' },
      { key: 'source', label: source, type: 'text' },
      { key: 'further', label: further, type: 'text' },
    ],
    rows: items.map((line) => [
      { text: line.word, mark: line.mark },
      { text: line.title },
      { text: line.about },
      { text: line.message },
      { text: line.figures },
      { text: line.citation },
      { text: (line.notes ?? []).map(({ term, value }) => `${term}: ${value}`).join('; ') },
    ]),
  };
}

/** The tables of a report, verdicts among them, in the order they are printed, with names that are unique within it. */
export function tablesOf(content: ReportContent): readonly TableBlock[] {
  const seen = new Map<string, number>();
  return content.blocks
    .flatMap((block): TableBlock[] => {
      if (block.kind === 'verdicts') return [verdictTable(block.items, content.language)];
      return block.kind === 'table' ? [block] : [];
    })
    .map((table) => {
      const count = (seen.get(table.name) ?? 0) + 1;
      seen.set(table.name, count);
      return count === 1 ? table : { ...table, name: `${table.name}-${count}` };
    });
}

const numeric: ReadonlySet<string> = new Set(['number', 'quantity']);
const plainNumber = /^-?\d+(\.\d+)?$/;

/** What CSV and JSON carry: the value where there is one, else the text. */
export const valueOf = (cell: Cell): number | string | null => (cell.value === undefined ? cell.text : cell.value);

/** One field of RFC 4180: in quotes where it holds a comma, a quote or an end of line. */
export const quoted = (text: string): string => (/[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);

/**
 * One field of RFC 4180. Text that a spreadsheet would run as a formula (it begins with = + - @, also as full-width
 * signs, a tab or an end of line: OWASP, “CSV Injection”) gets an apostrophe in front; a number in a column of numbers
 * does not.
 */
function field(value: number | string | null, isNumber: boolean): string {
  if (value === null) return '';
  const text = String(value);
  const harmless = isNumber && plainNumber.test(text);
  const shielded = !harmless && /^[=+\-@\t\r\n＝＋－＠]/.test(text) ? `'${text}` : text;
  return quoted(shielded);
}

/** A column's name without the sign that stands before it on paper (`+ Received`): a spreadsheet takes that for a formula. */
const unsigned = (label: string): string => label.replace(/^[+−=] /, '');

/** A table as RFC 4180 CSV, UTF-8 without a mark, lines ended by CRLF, header first; totals are left to the reader. */
export function csvOf(table: TableBlock): string {
  const rows = [
    table.columns.map((column) => field(unsigned(column.label), false)),
    ...table.rows.map((row) =>
      table.columns.map((column, index) => {
        const cell = row[index];
        return cell === undefined ? '' : field(valueOf(cell), numeric.has(column.type));
      }),
    ),
  ];
  return rows.map((row) => `${row.join(',')}\r\n`).join('');
}

type Json = string | number | boolean | null | readonly Json[] | { readonly [key: string]: Json };

function tableJson(table: TableBlock): Json {
  const rowJson = (row: readonly Cell[]): Json =>
    Object.fromEntries(
      table.columns.flatMap((column, index): [string, Json][] => {
        const cell = row[index];
        if (cell === undefined) return [];
        const entries: [string, Json][] = [[column.key, valueOf(cell)]];
        if (cell.was !== undefined) entries.push([`${column.key}Was`, cell.was]);
        if (cell.struck === true) entries.push(['struck', true]);
        return entries;
      }),
    );
  return {
    kind: 'table',
    name: table.name,
    caption: table.caption,
    columns: table.columns.map(({ key, label, type }) => ({ key, label, type })),
    rows: table.rows.map(rowJson),
    ...(table.total === undefined ? {} : { total: rowJson(table.total) }),
  };
}

/** Plain JSON of a block: tables as objects by column, everything else as it is. */
function blockJson(block: Block): Json {
  if (block.kind === 'table') return tableJson(block);
  const plain: Json = JSON.parse(JSON.stringify(block));
  return plain;
}

/** The whole report as JSON: what the PDF says, without its pages. */
export function jsonOf(content: ReportContent): Json {
  const { blocks, ...head } = content;
  const names = new Map(tablesOf(content).map((table) => [table.rows, table] as const));
  const plain: { readonly [key: string]: Json } = JSON.parse(JSON.stringify(head));
  return {
    ...plain,
    blocks: blocks
      .filter((block) => block.kind !== 'pageBreak' && block.kind !== 'blank')
      .map((block) => blockJson(block.kind === 'table' ? (names.get(block.rows) ?? block) : block)),
  };
}
