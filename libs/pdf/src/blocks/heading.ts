import type { Block } from '@furrowmark/reports';
import { ink, type } from '../paper.ts';
import type { Sheet } from '../sheet.ts';
import { drawText, textHeight } from './text.ts';

type Heading = Extract<Block, { kind: 'heading' }>;

/** The bookmarks beside the pages follow the headings: the first level is open, deeper ones are closed. */
export class Outline {
  readonly #open: { level: number; item: PDFKit.PDFOutline }[] = [];
  readonly #all: { level: number; item: PDFKit.PDFOutline }[] = [];

  add(sheet: Sheet, heading: Heading): void {
    while ((this.#open.at(-1)?.level ?? 0) >= heading.level) this.#open.pop();
    const parent = this.#open.at(-1)?.item ?? sheet.doc.outline;
    // `left` counts from the right edge in pdfkit: the page's width puts the view at its left.
    const target = { expanded: false, fit: false, top: sheet.y - 12, left: sheet.doc.page.width, zoom: 0 };
    const entry = { level: heading.level, item: parent.addItem(sheet.set.printable.text(heading.text), target) };
    this.#open.push(entry);
    this.#all.push(entry);
  }

  /** Writes how many entries stand below each (ISO 32000-1, table 153): positive where they show, negative where not. */
  finish(sheet: Sheet): void {
    const { outline } = sheet.doc;
    let shown = outline.children.length;
    for (const { level, item } of this.#all) {
      const below = item.children.length;
      if (below > 0) item.outlineData.Count = level === 1 ? below : -below;
      if (level === 1) shown += below;
    }
    if (shown > 0) outline.outlineData.Count = shown;
  }
}

const space = { 1: { above: 20, below: 9 }, 2: { above: 14, below: 5 }, 3: { above: 9, below: 2.5 } } as const;

export function headingHeight(sheet: Sheet, heading: Heading): number {
  const { above, below } = space[heading.level];
  return above + textHeight(sheet, heading.text, type[`h${heading.level}`]) + below;
}

/** `follows`: height of what must stand on the same page as the heading. */
export function drawHeading(sheet: Sheet, heading: Heading, outline: Outline, follows: number): void {
  const style = type[`h${heading.level}`];
  const { above, below } = space[heading.level];
  sheet.need(headingHeight(sheet, heading) + Math.min(follows, sheet.bottom - sheet.top - 120));
  if (sheet.y > sheet.top) sheet.y += above;
  outline.add(sheet, heading);
  if (heading.anchor !== undefined) sheet.land(heading.anchor);
  drawText(sheet, sheet.root, `H${heading.level}`, heading.text, style);
  if (heading.level === 1)
    sheet.artifact('Layout', () => sheet.rule(sheet.left, sheet.right, sheet.y + 2, 0.8, ink.text));
  sheet.y += below + (heading.level === 1 ? 4 : 0);
}

/** A rule divided like a day: twenty-four strokes, longer at the quarters. Time is the axis of everything here. */
export function drawDayRule(sheet: Sheet, y: number): void {
  sheet.rule(sheet.left, sheet.right, y, 0.6, ink.text);
  for (let hour = 0; hour <= 24; hour += 1) {
    const x = sheet.left + (sheet.width * hour) / 24;
    const length = hour % 12 === 0 ? 5 : hour % 6 === 0 ? 3.6 : 2;
    sheet.doc.moveTo(x, y).lineTo(x, y + length);
  }
  sheet.doc.lineWidth(0.5).strokeColor(ink.text).stroke();
}
