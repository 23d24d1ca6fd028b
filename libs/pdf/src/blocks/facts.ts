import type { Block } from '@furrowmark/reports';
import { ink, type } from '../paper.ts';
import type { Sheet, Tag } from '../sheet.ts';

type Facts = Extract<Block, { kind: 'facts' }>;
type Item = Facts['items'][number];

const gap = 20;
const style = type.body;

interface Laid {
  readonly term: readonly string[];
  readonly value: readonly string[];
  readonly was: readonly string[];
  readonly height: number;
}

function lay(sheet: Sheet, item: Item, termWidth: number, valueWidth: number): Laid {
  const { set } = sheet;
  const term = set.wrap(set.printable.text(item.term), type.small, termWidth);
  const value = set.wrap(set.printable.text(item.value), style, valueWidth);
  const was = item.was === undefined ? [] : set.wrap(set.printable.text(item.was), type.small, valueWidth - 22);
  const height = Math.max(term.length * type.small.leading + 3, value.length * style.leading + was.length * 11) + 1.5;
  return { term, value, was, height };
}

/** Terms and values: two pairs side by side where all values are short. An amended value shows the original, struck. */
export function drawFacts(sheet: Sheet, facts: Facts): void {
  const half = (sheet.width - gap) / 2;
  const narrowTerm = 92;
  const short = facts.items.every(
    (item) =>
      sheet.set.width(sheet.set.printable.text(item.value), style) <= half - narrowTerm && item.value.length > 0,
  );
  const columns = short && facts.items.length > 3 ? 2 : 1;
  const termWidth = columns === 2 ? narrowTerm - 6 : 122;
  const columnWidth = columns === 2 ? half : sheet.width;
  const list = sheet.open(sheet.root, 'L');
  // Read down the left column first, then down the right one: rows are filled so that each page holds whole rows.
  const rows = Math.ceil(facts.items.length / columns);
  for (let row = 0; row < rows; row += 1) {
    const pairs = Array.from({ length: columns }, (_, column) => facts.items[row + column * rows]);
    const laid = pairs.map((item) => (item ? lay(sheet, item, termWidth, columnWidth - termWidth - 6) : undefined));
    const height = Math.max(...laid.map((one) => one?.height ?? 0));
    sheet.need(height);
    laid.forEach((one, column) => {
      if (one) drawPair(sheet, list, one, sheet.left + column * (half + gap), termWidth);
    });
    sheet.y += height;
  }
  list.end();
  sheet.y += 8;
}

function drawPair(sheet: Sheet, list: Tag, laid: Laid, x: number, termWidth: number): void {
  const top = sheet.y;
  const item = sheet.open(list, 'LI');
  sheet.tagged(item, 'Lbl', () => {
    laid.term.forEach((line, index) => {
      sheet.line(line, x, top + 10 + index * type.small.leading, type.small, { color: ink.quiet });
    });
  });
  const body = sheet.open(item, 'LBody');
  const valueX = x + termWidth + 6;
  body.add(() => {
    laid.value.forEach((line, index) => {
      sheet.line(line, valueX, top + 10 + index * style.leading, style);
    });
  });
  if (laid.was.length > 0) {
    const wasTop = top + laid.value.length * style.leading;
    sheet.tagged(body, 'Span', () => drawWas(sheet, laid.was, valueX, wasTop + 8));
  }
  body.end();
  item.end();
}

/** "was", then the original struck through, never hidden. */
export function drawWas(sheet: Sheet, lines: readonly string[], x: number, baseline: number): void {
  const label = `${sheet.words.was} `;
  sheet.line(label, x, baseline, type.smallItalic, { color: ink.quiet });
  const indent = sheet.set.width(label, type.smallItalic);
  lines.forEach((line, index) => {
    sheet.line(line, x + indent, baseline + index * 10.5, type.small, { color: ink.quiet, strike: true });
  });
}
