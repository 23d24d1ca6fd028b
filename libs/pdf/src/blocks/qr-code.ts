import type { QrCode } from '@furrowmark/reports';
import { ink, type } from '../paper.ts';
import { drawQr } from '../qr.ts';
import type { Sheet } from '../sheet.ts';
import { drawText, textHeight } from './text.ts';

/** 32 mm: read by a phone at arm's length, also off wet paper. */
const size = 90;

export const qrCodeHeight = (sheet: Sheet, code: QrCode): number =>
  size + 12 + textHeight(sheet, code.label, type.small);

/** A code to scan, with what it leads to below it. */
export function drawQrCode(sheet: Sheet, code: QrCode): void {
  sheet.need(qrCodeHeight(sheet, code));
  const top = sheet.y;
  sheet.tagged(sheet.root, 'Figure', () => drawQr(sheet.doc, code.text, sheet.left, top, size), {
    alt: code.label,
    bbox: [sheet.left, top, sheet.left + size, top + size],
    placement: 'Block',
  });
  sheet.y = top + size + 6;
  drawText(sheet, sheet.root, 'P', code.label, type.small, { color: ink.quiet });
  sheet.y += 6;
}
