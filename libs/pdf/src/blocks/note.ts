import type { Block } from '@furrowmark/reports';
import { ink, type } from '../paper.ts';
import type { Sheet } from '../sheet.ts';

type Note = Extract<Block, { kind: 'note' }>;
const pad = 9;

function layout(sheet: Sheet, note: Note): { lines: readonly string[]; height: number } {
  const text = sheet.set.printable.text(note.text);
  const lines = sheet.set.wrap(text, type.body, sheet.width - pad * 2 - 4);
  return { lines, height: pad * 2 + type.strong.leading + lines.length * type.body.leading - 3 };
}

export function noteHeight(sheet: Sheet, note: Note): number {
  return layout(sheet, note).height + 9;
}

/** A boxed note. A caution has a heavy bar and the word, so that it is one on any printer. */
export function drawNote(sheet: Sheet, note: Note): void {
  const { lines, height } = layout(sheet, note);
  sheet.need(height);
  const top = sheet.y;
  const isCaution = note.tone === 'caution';
  sheet.artifact('Layout', () => {
    sheet.doc.rect(sheet.left, top, sheet.width, height).lineWidth(0.6);
    sheet.doc.strokeColor(isCaution ? ink.text : ink.rule).stroke();
    if (isCaution) sheet.doc.rect(sheet.left, top, 4, height).fillColor(ink.text).fill();
  });
  const tag = sheet.open(sheet.root, 'Note');
  const x = sheet.left + pad + 4;
  sheet.tagged(tag, 'P', () => {
    sheet.line(isCaution ? sheet.words.caution : sheet.words.note, x, top + pad + 8.5, type.strong);
  });
  sheet.tagged(tag, 'P', () => {
    lines.forEach((line, index) => {
      sheet.line(line, x, top + pad + 8.5 + type.strong.leading + index * type.body.leading, type.body);
    });
  });
  tag.end();
  sheet.y = top + height + 9;
}
