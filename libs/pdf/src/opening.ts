import { drawQr } from './qr.ts';
import { ink, type } from './paper.ts';
import type { Sheet } from './sheet.ts';
import { drawDayRule } from './blocks/heading.ts';
import { drawText } from './blocks/text.ts';

const qrSize = 96;
const caption = { font: 'regular', size: 6.6, leading: 8 } as const;

/** The head of the first page: whose report it is, what it is, and the log's checkpoint to scan. */
export function drawOpening(sheet: Sheet): void {
  const { content } = sheet;
  const { checkpoint } = content.log;
  const width = sheet.width - (checkpoint === undefined ? 0 : qrSize + 24);
  const top = sheet.y;
  const foot = checkpoint === undefined ? 0 : drawCheckpoint(sheet, checkpoint, top);
  sheet.y = top - 4;
  drawText(sheet, sheet.root, 'P', content.operation.name, type.strong, { width });
  sheet.y += 3;
  drawText(sheet, sheet.root, 'H1', content.title, type.title, { width });
  if (content.subtitle !== undefined) {
    drawText(sheet, sheet.root, 'P', content.subtitle, type.h2, { width, color: ink.quiet });
  }
  sheet.y += 3;
  const { operation, period } = content;
  const lines = [
    operation.address,
    operation.certificate,
    period === undefined ? undefined : `${period.from} – ${period.to}`,
    `${content.preparedAt} · ${operation.timeZone}`,
  ];
  for (const line of lines) {
    if (line !== undefined) drawText(sheet, sheet.root, 'P', line, type.small, { width, color: ink.quiet });
  }
  if (content.notice !== undefined) {
    sheet.y += 4;
    drawText(sheet, sheet.root, 'P', content.notice, type.smallStrong, { width });
  }
  sheet.y = Math.max(sheet.y + 8, foot + 8);
  sheet.artifact('Layout', () => drawDayRule(sheet, sheet.y));
  sheet.y += 18;
}

/** The code with what it is for below it; where that ends. */
function drawCheckpoint(sheet: Sheet, checkpoint: string, top: number): number {
  const x = sheet.right - qrSize;
  sheet.tagged(sheet.root, 'Figure', () => drawQr(sheet.doc, checkpoint, x, top, qrSize), {
    alt: sheet.words.checkpointAlt,
    bbox: [x, top, x + qrSize, top + qrSize],
    placement: 'Block',
  });
  const lines = sheet.set.wrap(sheet.words.checkpoint, caption, qrSize);
  const first = top + qrSize + 9;
  sheet.tagged(sheet.root, 'P', () => {
    lines.forEach((line, index) => {
      sheet.line(line, x, first + index * caption.leading, caption, { color: ink.quiet });
    });
  });
  return first + (lines.length - 1) * caption.leading;
}
