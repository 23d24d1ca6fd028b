import { ink, type, type TextStyle } from '../paper.ts';
import type { Sheet, Tag } from '../sheet.ts';

/**
 * Sets wrapped text as one element, running on to the next page where it must, never leaving fewer than two lines behind
 * where the text has more.
 */
export function drawText(
  sheet: Sheet,
  parent: Tag,
  tagName: string,
  text: string,
  style: TextStyle,
  options: { readonly x?: number; readonly width?: number; readonly color?: string } = {},
): void {
  const { x = sheet.left, width = sheet.width, color = ink.text } = options;
  const lines = sheet.set.wrap(sheet.set.printable.text(text), style, width);
  const tag = sheet.open(parent, tagName);
  for (let next = 0; next < lines.length;) {
    sheet.need(style.leading * Math.min(2, lines.length - next));
    let count = Math.max(1, Math.min(lines.length - next, Math.floor(sheet.room / style.leading)));
    if (lines.length - next - count === 1 && count > 2) count -= 1;
    tag.add(() => {
      for (const line of lines.slice(next, next + count)) {
        sheet.line(line, x, sheet.y + style.leading * 0.72, style, { color });
        sheet.y += style.leading;
      }
    });
    next += count;
    if (next < lines.length) sheet.newPage();
  }
  tag.end();
}

/** Height that `drawText` takes on one page. */
export function textHeight(sheet: Sheet, text: string, style: TextStyle, width = sheet.width): number {
  return sheet.set.wrap(sheet.set.printable.text(text), style, width).length * style.leading;
}

const paragraphWidth = (sheet: Sheet): number => Math.min(sheet.width, 510);
export const paragraphHeight = (sheet: Sheet, text: string): number =>
  textHeight(sheet, text, type.body, paragraphWidth(sheet)) + 7;

export function drawParagraph(sheet: Sheet, text: string): void {
  drawText(sheet, sheet.root, 'P', text, type.body, { width: paragraphWidth(sheet) });
  sheet.y += 7;
}
