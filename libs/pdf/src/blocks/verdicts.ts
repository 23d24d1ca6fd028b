import type { VerdictLine } from '@furrowmark/reports';
import { drawMark } from '../marks.ts';
import { ink, type, type TextStyle } from '../paper.ts';
import type { Sheet, Tag } from '../sheet.ts';

const gutter = 19;

interface Part {
  readonly tag: string;
  readonly lines: readonly string[];
  readonly style: TextStyle;
  readonly color: string;
}

function parts(sheet: Sheet, item: VerdictLine): readonly Part[] {
  const width = sheet.width - gutter;
  const part = (text: string, style: TextStyle, color: string): Part[] =>
    text === ''
      ? []
      : [{ tag: 'P', lines: sheet.set.wrap(sheet.set.printable.text(text), style, width), style, color }];
  return [
    ...part(`${item.word} · ${item.title} · ${item.about}`, type.strong, ink.text),
    ...part(item.message, type.body, ink.text),
    ...part(item.figures, type.small, ink.text),
    ...part(item.citation, type.smallItalic, ink.quiet),
    ...(item.notes ?? []).flatMap(({ term, value }) => part(`${term}: ${value}`, type.small, ink.text)),
  ];
}

/** One verdict stays together unless it is longer than a page. */
export function drawVerdicts(sheet: Sheet, items: readonly VerdictLine[]): void {
  const list = sheet.open(sheet.root, 'L');
  for (const item of items) drawVerdict(sheet, list, item);
  list.end();
  sheet.y += 4;
}

/** Height of the first verdict: a heading above must not be left alone. */
export function firstVerdictHeight(sheet: Sheet, items: readonly VerdictLine[]): number {
  const [first] = items;
  return first === undefined ? 0 : heightOf(parts(sheet, first));
}

const heightOf = (laid: readonly Part[]): number =>
  laid.reduce((sum, { lines, style }) => sum + lines.length * style.leading, 0);

function drawVerdict(sheet: Sheet, list: Tag, item: VerdictLine): void {
  const laid = parts(sheet, item);
  sheet.need(heightOf(laid));
  const entry = sheet.open(list, 'LI');
  const label = sheet.open(entry, 'Lbl');
  const [x, y] = [sheet.left + 5.5, sheet.y + 7];
  sheet.tagged(label, 'Figure', () => drawMark(sheet.doc, item.mark, x, y, 4), {
    alt: item.word,
    bbox: [x - 5, y - 5, x + 5, y + 5],
    placement: 'Inline',
  });
  label.end();
  const body = sheet.open(entry, 'LBody');
  for (const part of laid) {
    const tag = sheet.open(body, part.tag);
    for (let next = 0; next < part.lines.length;) {
      sheet.need(part.style.leading);
      const count = Math.min(part.lines.length - next, Math.max(1, Math.floor(sheet.room / part.style.leading)));
      tag.add(() => {
        for (const line of part.lines.slice(next, next + count)) {
          sheet.line(line, sheet.left + gutter, sheet.y + 10, part.style, { color: part.color });
          sheet.y += part.style.leading;
        }
      });
      next += count;
    }
    tag.end();
  }
  body.end();
  entry.end();
  sheet.y += 6.5;
}
