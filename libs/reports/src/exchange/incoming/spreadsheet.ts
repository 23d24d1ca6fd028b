import { quoted } from '../../tables.ts';

/** One sheet of a spreadsheet as a table's text (RFC 4180), as if it had been saved so. */
export interface SheetAsText {
  readonly sheet: string;
  /** Names of the further sheets that hold something; they are not read. */
  readonly others: readonly string[];
  readonly text: string;
}

const two = (n: number): string => String(n).padStart(2, '0');

/**
 * A cell's day and time, which a spreadsheet keeps without a zone as a count of days: to the second, as nobody typed less.
 * A time alone has the day zero, the last of 1899.
 */
function momentText(date: Date): string {
  const at = new Date(Math.round(date.getTime() / 1000) * 1000);
  const day = `${at.getUTCFullYear()}-${two(at.getUTCMonth() + 1)}-${two(at.getUTCDate())}`;
  const time = `${two(at.getUTCHours())}:${two(at.getUTCMinutes())}:${two(at.getUTCSeconds())}`;
  if (at.getUTCFullYear() < 1900) return time;
  return time === '00:00:00' ? day : `${day} ${time}`;
}

function cellText(cell: unknown): string {
  if (cell === null || cell === undefined) return '';
  if (cell instanceof Date) return momentText(cell);
  if (typeof cell === 'boolean') return cell ? 'yes' : 'no';
  // A spreadsheet counts with 15 digits; what a sum leaves behind them nobody sees in it.
  if (typeof cell === 'number') return String(Number(cell.toPrecision(15)));
  return typeof cell === 'string' ? cell : JSON.stringify(cell);
}

/**
 * Reads a spreadsheet (Office Open XML, `.xlsx`): the sheet of that name; without one the first that has more than one row,
 * else the first with any. null for a file that is none, that holds nothing, or that has no such sheet.
 */
export async function spreadsheetText(bytes: ArrayBuffer, name?: string): Promise<SheetAsText | null> {
  const { default: readSheets } = await import('read-excel-file/universal');
  const sheets = await readSheets(bytes).catch(() => null);
  if (sheets === null) return null;
  const filled = sheets
    .map(({ sheet, data }) => ({ sheet, rows: data.map((row) => row.map(cellText)) }))
    .filter(({ rows }) => rows.some((row) => row.some((cell) => cell.trim() !== '')));
  const chosen =
    name === undefined
      ? (filled.find(({ rows }) => rows.length > 1) ?? filled[0])
      : filled.find(({ sheet }) => sheet === name);
  if (chosen === undefined) return null;
  return {
    sheet: chosen.sheet,
    others: filled.filter((each) => each !== chosen).map(({ sheet }) => sheet),
    text: chosen.rows.map((row) => `${row.map(quoted).join(',')}\r\n`).join(''),
  };
}
