import { parse } from 'csv-parse/browser/esm/sync';
import { z } from 'zod';

export const delimiters = [',', ';', '\t', '|'] as const;
export type Delimiter = (typeof delimiters)[number];

export interface SheetRow {
  /** Line of the file on which the row begins, from 1. */
  readonly line: number;
  readonly cells: readonly string[];
}

/** A table as text: RFC 4180 and its relatives. */
export interface Sheet {
  readonly delimiter: Delimiter;
  readonly header: readonly string[];
  readonly rows: readonly SheetRow[];
}

/** Characters of a header that are looked at, and columns that a table may have. */
const longestHeader = 200;
const mostColumns = 200;

const parsed = z.array(z.object({ record: z.array(z.string()), info: z.object({ lines: z.number() }) }));

/** What most of the first lines are split by; a comma where nothing is. */
function delimiterIn(text: string): Delimiter {
  const lines = text.split(/\r\n|\r|\n/, 30).filter((line) => line.trim() !== '');
  const counts = delimiters.map((delimiter) => ({
    delimiter,
    most: lines.reduce((sum, line) => sum + Math.min(20, line.split(delimiter).length - 1), 0),
  }));
  return counts.reduce((best, each) => (each.most > best.most ? each : best)).delimiter;
}

const breaks = (cells: readonly string[]): number =>
  cells.reduce((sum, cell) => sum + (cell.match(/\r\n|\r|\n/g)?.length ?? 0), 0);

/**
 * An apostrophe that stands before a formula's first sign is a spreadsheet's shield, not part of the text: the tables that
 * this program writes have it, and it goes when they are read back.
 */
const unshielded = (cell: string): string => (/^'[=+\-@\t\r]/.test(cell) ? cell.slice(1) : cell);

/**
 * Reads a table; of the first 40 rows the header is the first that `isHeader` knows, else the first of all (loggers write
 * about themselves before it). Gives in words why it is no table.
 */
export function readSheet(
  text: string,
  {
    delimiter = delimiterIn(text),
    isHeader,
    most,
  }: {
    readonly delimiter?: Delimiter | undefined;
    readonly isHeader: (cells: readonly string[]) => boolean;
    /** Rows, at most. */
    readonly most: number;
  },
): Sheet | { readonly fault: string } {
  let read: z.output<typeof parsed>;
  try {
    read = parsed.parse(
      parse(text, {
        delimiter,
        bom: true,
        info: true,
        relax_column_count: true,
        skip_empty_lines: true,
        relax_quotes: true,
      }),
    );
  } catch (error) {
    return { fault: `The file cannot be read as a table: ${error instanceof Error ? error.message : String(error)}.` };
  }
  const lines = read
    .map(({ record, info }): SheetRow => ({
      line: info.lines - breaks(record),
      cells: record.map((cell) => unshielded(cell.trim())),
    }))
    .filter(({ cells }) => cells.some((cell) => cell !== ''));
  const named = (cells: readonly string[]) => cells.slice(0, mostColumns).map((cell) => cell.slice(0, longestHeader));
  const first = lines.slice(0, 40).findIndex(({ cells }) => isHeader(named(cells)));
  const at = Math.max(0, first);
  const header = lines[at];
  if (header === undefined)
    return { fault: 'The file is empty: its first line names the columns, each further line is a row.' };
  if (header.cells.length > mostColumns)
    return {
      fault: `The file has ${header.cells.length} columns; at most ${mostColumns} are read: is it split by another mark?`,
    };
  const rows = lines.slice(at + 1);
  if (rows.length > most)
    return { fault: `The file has ${rows.length} rows; at most ${most} are read at once: split it.` };
  return { delimiter, header: named(header.cells), rows };
}
