import type { Cell, TableBlock } from '@furrowmark/reports';
import { CellTags } from '../cell-tags.ts';
import { drawMark } from '../marks.ts';
import { lateNumberWidth } from '../late-number.ts';
import { ink, type, type TextStyle } from '../paper.ts';
import type { Sheet, Tag } from '../sheet.ts';
import { cellPad, columnWidths, markWidth, tableWidth } from './columns.ts';
import { drawText, textHeight } from './text.ts';
import { drawWas } from './facts.ts';

const rowPad = 3.2;
const belowTable = 12;
/** Points of a line to write on by hand: eight millimetres. */
const writingHeight = 22.7;
/** Signs of a text that fills as much even in a wide column. */
const longText = 2_000;
/** The share of a page up to which a table is moved to the next one rather than parted. */
const keptWhole = 0.3;

interface LaidCell {
  readonly cell: Cell;
  readonly lines: readonly string[];
  readonly was: readonly string[];
}
interface LaidRow {
  readonly cells: readonly LaidCell[];
  readonly height: number;
}

const isPlain = ({ cell, was }: LaidCell): boolean => cell.to === undefined && was.length === 0;

/** Draws one table; yields at each page break, so that finished pages can be handed on: how many rows are drawn. */
export class TableDrawer {
  readonly #sheet: Sheet;
  readonly #table: TableBlock;
  readonly #widths: readonly number[];
  readonly #lefts: readonly number[];
  readonly #head: LaidRow;
  readonly #right: number;
  readonly #tags: CellTags;
  #body: Tag | undefined;
  readonly #after: number;
  #drawn = 0;

  /** `after`: points of what must stand on the page of its last row, such as lines to sign on. */
  constructor(sheet: Sheet, table: TableBlock, after = 0) {
    this.#sheet = sheet;
    this.#after = after === 0 ? 0 : after + belowTable;
    this.#table = table;
    this.#tags = new CellTags(sheet);
    this.#widths = columnWidths(sheet, table, tableWidth(sheet, table));
    this.#lefts = this.#widths.map((_, index) => sheet.left + this.#widths.slice(0, index).reduce((a, b) => a + b, 0));
    this.#right = sheet.left + this.#widths.reduce((a, b) => a + b, 0);
    this.#head = this.#layout(
      table.columns.map((column) => ({ text: column.label })),
      type.smallStrong,
    );
  }

  #align(index: number): 'left' | 'right' {
    const kind = this.#table.columns[index]?.type;
    return kind === 'number' || kind === 'quantity' ? 'right' : 'left';
  }

  #layout(cells: readonly Cell[], style: TextStyle): LaidRow {
    const { set } = this.#sheet;
    const laid = cells.map((cell, index) => {
      const width = (this.#widths[index] ?? 0) - cellPad * 2;
      const beside = (cell.mark === undefined ? 0 : markWidth) + (cell.to === undefined ? 0 : lateNumberWidth);
      const lines = set.wrap(set.printable.text(cell.text), style, width - beside);
      if (cell.was === undefined) return { cell, lines, was: [] };
      const label = set.width(`${this.#sheet.words.was} `, type.smallItalic);
      const was = set.wrap(set.printable.text(cell.was), type.small, Math.max(width - label, 20));
      return { cell, lines, was };
    });
    const heights = laid.map(({ lines, was }) => lines.length * style.leading + was.length * 10.5);
    const least = cells.every(({ text }) => text.trim() === '') ? writingHeight : style.leading + rowPad * 2;
    return { cells: laid, height: Math.max(Math.max(...heights) + rowPad * 2, least) };
  }

  /** What must not be parted: caption, header and the first row or two; of a small table all of it. */
  openingHeight(): number {
    const head = this.#captionHeight() + this.#head.height;
    const first = this.#heightOf(this.#table.rows.slice(0, 2));
    return this.#wholeHeight() ?? head + Math.min(200, first || 20);
  }

  /** The height of a table that stands on one page: null where it is too long for that to be asked. */
  #wholeHeight(): number | null {
    const { rows, total } = this.#table;
    const most = (this.#sheet.bottom - this.#sheet.top) * keptWhole;
    // No need to lay out rows by the hundred, or pages of text in one of them, to know that they are too much.
    if (rows.length * (type.cell.leading + rowPad * 2) > most) return null;
    if (rows.some((row) => row.some(({ text }) => text.length > longText))) return null;
    const whole =
      this.#captionHeight() +
      this.#head.height +
      this.#heightOf(rows) +
      (total === undefined ? 0 : this.#layout(total, type.cellStrong).height) +
      this.#after;
    return whole > most ? null : whole;
  }

  #heightOf(rows: TableBlock['rows']): number {
    return rows.reduce((sum, row) => sum + this.#layout(row, type.cell).height, 0);
  }

  #captionHeight(): number {
    return this.#table.caption === '' ? 0 : textHeight(this.#sheet, this.#table.caption, type.h3) + 3;
  }

  *draw(): Generator<number> {
    const sheet = this.#sheet;
    const table = this.#table;
    if (table.rows.length === 0) {
      if (table.caption !== '') drawText(sheet, sheet.root, 'P', table.caption, type.h3);
      drawText(sheet, sheet.root, 'P', table.empty ?? sheet.words.noRows, type.body, { color: ink.quiet });
      sheet.y += 8;
      return;
    }
    sheet.need(this.openingHeight());
    const tag = sheet.open(sheet.root, 'Table');
    if (table.caption !== '') {
      drawText(sheet, tag, 'Caption', table.caption, type.h3);
      sheet.y += 3;
    }
    this.#drawHead(tag);
    // A body for each page: its rows are written and forgotten when the page is.
    this.#body = sheet.open(tag, 'TBody');
    const total = table.total === undefined ? undefined : this.#layout(table.total, type.cellStrong);
    for (const [index, row] of table.rows.entries()) {
      const laid = this.#layout(row, type.cell);
      // The last row stays with the total, and with lines to sign on: alone on a page they say nothing.
      const isLast = index === table.rows.length - 1;
      const kept = laid.height + (isLast ? (total?.height ?? 0) + this.#after : 0);
      if (sheet.room < kept && kept <= this.#bodyHeight()) {
        yield* this.#breakPage();
        this.#body.end();
        this.#body = sheet.open(tag, 'TBody');
      }
      yield* this.#drawRow(laid, type.cell);
      this.#drawn += 1;
    }
    if (total !== undefined) yield* this.#drawTotal(total);
    this.#body.end();
    tag.end();
    sheet.y += belowTable;
  }

  #bodyHeight(): number {
    return this.#sheet.bottom - this.#sheet.top - this.#head.height;
  }

  *#breakPage(): Generator<number> {
    this.#sheet.newPage();
    yield this.#drawn;
    this.#sheet.artifact('Pagination', () => this.#paintHead());
  }

  #drawHead(tag: Tag): void {
    const sheet = this.#sheet;
    const head = sheet.open(tag, 'THead');
    const row = sheet.open(head, 'TR');
    const top = sheet.y;
    this.#head.cells.forEach((laid, index) => {
      sheet.tagged(row, 'TH', () => this.#paintCell(laid, index, top, type.smallStrong, 0, laid.lines.length), {
        scope: 'Column',
      });
    });
    row.end();
    head.end();
    sheet.artifact('Layout', () => sheet.rule(sheet.left, this.#right, top + this.#head.height, 0.8, ink.text));
    sheet.y = top + this.#head.height;
  }

  #paintHead(): void {
    const sheet = this.#sheet;
    const top = sheet.y;
    this.#head.cells.forEach((laid, index) => {
      this.#paintCell(laid, index, top, type.smallStrong, 0, laid.lines.length);
    });
    sheet.rule(sheet.left, this.#right, top + this.#head.height, 0.8, ink.text);
    sheet.y = top + this.#head.height;
  }

  *#drawTotal(total: LaidRow): Generator<number> {
    const sheet = this.#sheet;
    sheet.artifact('Layout', () => sheet.rule(sheet.left, this.#right, sheet.y, 0.8, ink.text));
    yield* this.#drawRow(total, type.cellStrong);
  }

  /** A row is split only when it is taller than a whole page. */
  *#drawRow(laid: LaidRow, style: TextStyle): Generator<number> {
    const sheet = this.#sheet;
    if (this.#body === undefined) return;
    if (laid.height <= sheet.room && laid.cells.every(isPlain)) return this.#drawPlainRow(this.#body, laid, style);
    const row = sheet.open(this.#body, 'TR');
    const cells = laid.cells.map(() => sheet.open(row, 'TD'));
    const most = Math.max(...laid.cells.map(({ lines }) => lines.length));
    const whole = laid.height <= sheet.room;
    for (let next = 0; next < most;) {
      const fitting = whole ? most : Math.max(1, Math.floor((sheet.room - rowPad * 2) / style.leading));
      const count = Math.min(most - next, fitting);
      const top = sheet.y;
      const from = next;
      laid.cells.forEach((cell, index) => {
        const td = cells[index];
        if (td === undefined) return;
        const paint = (): void => {
          this.#paintCell(cell, index, top, style, from, count);
        };
        if (cell.cell.to === undefined || from > 0) td.add(paint);
        else this.#drawLink(td, cell, index, cell.cell.to, top, style, paint);
      });
      next += count;
      sheet.y = top + (whole ? laid.height : count * style.leading + rowPad * 2);
      if (next < most) yield* this.#breakPage();
    }
    laid.cells.forEach((cell, index) => this.#drawOriginal(cells[index], cell, index, style, laid.height));
    for (const cell of cells) cell.end();
    row.end();
    sheet.artifact('Layout', () => sheet.rule(sheet.left, this.#right, sheet.y, 0.35, ink.rule));
  }

  /** A row that stands on this page, without links and without originals. */
  #drawPlainRow(body: Tag, laid: LaidRow, style: TextStyle): void {
    const sheet = this.#sheet;
    const top = sheet.y;
    this.#tags.row(
      body,
      laid.cells.map((cell, index) => () => this.#paintCell(cell, index, top, style, 0, cell.lines.length)),
    );
    sheet.y = top + laid.height;
    sheet.artifact('Layout', () => sheet.rule(sheet.left, this.#right, sheet.y, 0.35, ink.rule));
  }

  #drawOriginal(tag: Tag | undefined, laid: LaidCell, index: number, style: TextStyle, height: number): void {
    if (tag === undefined || laid.was.length === 0) return;
    const sheet = this.#sheet;
    const top = sheet.y - height + rowPad + laid.lines.length * style.leading;
    const label = sheet.set.width(`${sheet.words.was} `, type.smallItalic);
    const widest = label + Math.max(...laid.was.map((line) => sheet.set.width(line, type.small)));
    const left = this.#lefts[index] ?? 0;
    const x = this.#align(index) === 'right' ? left + (this.#widths[index] ?? 0) - cellPad - widest : left + cellPad;
    sheet.tagged(tag, 'Span', () => drawWas(sheet, laid.was, x, top + 8));
  }

  #paintCell(laid: LaidCell, index: number, top: number, style: TextStyle, from: number, count: number): void {
    const sheet = this.#sheet;
    const { cell } = laid;
    const left = (this.#lefts[index] ?? 0) + cellPad;
    const width = (this.#widths[index] ?? 0) - cellPad * 2;
    const baseline = top + rowPad + style.leading * 0.76;
    if (cell.mark !== undefined && from === 0) drawMark(sheet.doc, cell.mark, left + 4, baseline - 3, 3.3);
    const x = left + (cell.mark === undefined ? 0 : markWidth);
    laid.lines.slice(from, from + count).forEach((line, row) => {
      sheet.line(line, x, baseline + row * style.leading, style, {
        align: this.#align(index),
        width: width - (x - left),
        strike: cell.struck === true,
        color: cell.to === undefined ? ink.text : ink.blue,
      });
    });
  }

  /** What leads to another place says on which page that is: on paper nobody can follow it otherwise. */
  #drawLink(
    td: Tag,
    laid: LaidCell,
    index: number,
    to: string,
    top: number,
    style: TextStyle,
    paint: () => void,
  ): void {
    const sheet = this.#sheet;
    const link = sheet.open(td, 'Link', { alt: laid.cell.text });
    link.add(() => {
      paint();
      const [left, width] = [this.#lefts[index] ?? 0, this.#widths[index] ?? 0];
      const height = laid.lines.length * style.leading;
      sheet.pageOf(to, left + width - cellPad, top + rowPad + style.leading * 0.76, style);
      sheet.doc.goTo(left, top + rowPad, width, height, sheet.destination(to), { structParent: link });
    });
    link.end();
  }
}
