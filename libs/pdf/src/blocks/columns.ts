import type { Cell, TableBlock } from '@furrowmark/reports';
import { lateNumberWidth } from '../late-number.ts';
import { type } from '../paper.ts';
import type { Sheet } from '../sheet.ts';

/** Space on either side of a cell's text, and the width of a verdict's shape. */
export const cellPad = 4;
export const markWidth = 13;

interface Need {
  /** Widest unbreakable piece. */
  readonly least: number;
  /** Everything on one line. */
  readonly most: number;
}

const unbroken: ReadonlySet<string> = new Set(['number', 'quantity', 'instant', 'date']);

const known = new WeakMap<Sheet, WeakMap<TableBlock, readonly Need[]>>();

/** What each column needs, looked up once for a table: its orientation, its heading and its drawing all ask. */
function needs(sheet: Sheet, table: TableBlock): readonly Need[] {
  let ofSheet = known.get(sheet);
  if (ofSheet === undefined) known.set(sheet, (ofSheet = new WeakMap()));
  let found = ofSheet.get(table);
  if (found === undefined) ofSheet.set(table, (found = needsOf(sheet, table)));
  return found;
}

/** From every row: a table never cuts a figure in two where it can be avoided. */
function needsOf(sheet: Sheet, table: TableBlock): Need[] {
  const { set } = sheet;
  return table.columns.map((column, index) => {
    let least = set.longestWord(set.printable.text(column.label), type.smallStrong);
    let most = set.width(set.printable.text(column.label), type.smallStrong);
    const look = (cell: Cell | undefined, strong: boolean): void => {
      if (cell === undefined) return;
      const style = strong ? type.cellStrong : type.cell;
      const text = set.printable.text(cell.text);
      const extra = (cell.mark === undefined ? 0 : markWidth) + (cell.to === undefined ? 0 : lateNumberWidth);
      const whole = Math.max(0, ...text.split('\n').map((line) => set.width(line, style))) + extra;
      most = Math.max(most, whole);
      const kept = unbroken.has(column.type);
      const piece = kept && whole < 110 ? whole : set.longestWord(text, style) + extra;
      least = Math.max(least, Math.min(piece, 110));
      if (cell.was === undefined) return;
      const was = set.printable.text(cell.was);
      const label = set.width(`${sheet.words.was} `, type.smallItalic);
      const original = label + Math.max(0, ...was.split('\n').map((line) => set.width(line, type.small)));
      most = Math.max(most, original);
      least = Math.max(least, Math.min(kept ? original : label + set.longestWord(was, type.small), 110));
    };
    for (const row of table.rows) look(row[index], false);
    look(table.total?.[index], true);
    return { least: least + cellPad * 2, most: Math.min(most, 300) + cellPad * 2 };
  });
}

const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);

/** The narrowest the table can be without cutting words. */
export function leastTableWidth(sheet: Sheet, table: TableBlock): number {
  return sum(needs(sheet, table).map((need) => need.least));
}

/** A table of a few short columns stays narrow: figures far from what they belong to are hard to read. */
export function tableWidth(sheet: Sheet, table: TableBlock): number {
  const natural = sum(needs(sheet, table).map((need) => need.most)) * 1.25;
  return natural < sheet.width * 0.7 ? Math.max(natural, sheet.width * 0.45) : sheet.width;
}

/** Column widths that add up to `width`: what each needs, then what each would like, weighed by `width` hints. */
export function columnWidths(sheet: Sheet, table: TableBlock, width: number): number[] {
  const wanted = needs(sheet, table);
  const least = sum(wanted.map((need) => need.least));
  if (least > width) {
    // Too narrow for all: figures keep their width as far as it goes, the widest text columns give way.
    let limit = Math.max(...wanted.map((need) => need.least));
    const capped = (): number[] => wanted.map((need) => Math.min(need.least, limit));
    while (sum(capped()) > width && limit > 12) limit -= 1;
    return stretch(capped(), width);
  }
  const wishes = wanted.map((need, index) => (need.most - need.least) * (table.columns[index]?.width ?? 1));
  const wish = sum(wishes);
  const spare = width - least;
  const share = wish === 0 ? 0 : Math.min(1, spare / wish);
  const widths = wanted.map((need, index) => need.least + (wishes[index] ?? 0) * share);
  return stretch(widths, width);
}

/** What is left over goes to every column alike. */
function stretch(widths: readonly number[], width: number): number[] {
  const extra = (width - sum(widths)) / widths.length;
  return widths.map((one) => one + extra);
}
