import { ink } from '../paper.ts';

export type BandKind = 'air' | 'noAir' | 'brew' | 'hold' | 'apply' | 'fill';

/** Diagonal strokes inside a rectangle: tells a band apart on any printer. */
function hatch(doc: PDFKit.PDFDocument, x: number, y: number, width: number, height: number, step: number): void {
  doc.save().rect(x, y, width, height).clip();
  for (let at = x - height; at < x + width; at += step) doc.moveTo(at, y + height).lineTo(at + height, y);
  doc.lineWidth(0.6).strokeColor(ink.text).stroke().restore();
}

/**
 * One stretch of time: air solid grey, no air hatched in an open box, brew a bracket, hold a wide hatch, application
 * solid black, filling solid blue.
 */
export function drawBand(
  doc: PDFKit.PDFDocument,
  kind: BandKind,
  x: number,
  y: number,
  measuredWidth: number,
  height: number,
): void {
  const width = Math.max(measuredWidth, 1.2);
  const box = (fill: string): void => {
    doc.rect(x, y, width, height).fillColor(fill).fill();
  };
  switch (kind) {
    case 'air':
      box('#a9c9dc');
      return;
    case 'fill':
      box(ink.blue);
      return;
    case 'apply':
      box(ink.text);
      return;
    case 'noAir':
      box(ink.white);
      hatch(doc, x, y, width, height, 2.6);
      doc.rect(x, y, width, height).lineWidth(0.7).strokeColor(ink.text).stroke();
      return;
    case 'hold':
      box('#fbe6c2');
      hatch(doc, x, y, width, height, 6);
      doc.rect(x, y, width, height).lineWidth(0.7).strokeColor(ink.text).stroke();
      return;
    case 'brew':
      box('#d3ecdf');
      doc
        .moveTo(x, y)
        .lineTo(x, y + height)
        .moveTo(x + width, y)
        .lineTo(x + width, y + height);
      doc.moveTo(x, y + height / 2).lineTo(x + width, y + height / 2);
      doc.lineWidth(1.2).strokeColor(ink.text).stroke();
  }
}
