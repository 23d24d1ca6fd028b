import type { VerdictMark } from '@furrowmark/reports';
import { ink } from './paper.ts';

const colors: Readonly<Record<VerdictMark, string>> = {
  met: ink.green,
  caution: ink.orange,
  broken: ink.vermilion,
  due: ink.blue,
  unknown: ink.text,
  notApplicable: ink.quiet,
};

/**
 * Draws a verdict's shape in a circle of radius `r` around (x, y): ● met, ◐ caution, ✕ broken, ○ due, ? unknown,
 * – not applicable. Drawn, not typed: no text face has all of them. The shape alone tells them apart.
 */
export function drawMark(doc: PDFKit.PDFDocument, mark: VerdictMark, x: number, y: number, r: number): void {
  const stroke = r * 0.3;
  doc.save().lineWidth(stroke).strokeColor(colors[mark]).fillColor(colors[mark]).lineCap('round');
  switch (mark) {
    case 'met':
      doc.circle(x, y, r).fill();
      break;
    case 'caution':
      doc.circle(x, y, r - stroke / 2).stroke();
      doc.path(`M ${x} ${y - r} A ${r} ${r} 0 0 0 ${x} ${y + r} Z`).fill();
      break;
    case 'broken':
      doc.lineWidth(r * 0.42);
      doc.moveTo(x - r * 0.8, y - r * 0.8).lineTo(x + r * 0.8, y + r * 0.8);
      doc
        .moveTo(x + r * 0.8, y - r * 0.8)
        .lineTo(x - r * 0.8, y + r * 0.8)
        .stroke();
      break;
    case 'due':
      doc.circle(x, y, r - stroke / 2).stroke();
      break;
    case 'unknown':
      // The hook of a question mark, and its dot.
      doc.path(
        `M ${x - r * 0.5} ${y - r * 0.45} C ${x - r * 0.5} ${y - r * 1.15} ${x + r * 0.55} ${y - r * 1.15} ${x + r * 0.55} ${y - r * 0.45} C ${x + r * 0.55} ${y - r * 0.05} ${x} ${y - r * 0.05} ${x} ${y + r * 0.4}`,
      );
      doc.stroke();
      doc.circle(x, y + r * 0.88, stroke * 0.6).fill();
      break;
    case 'notApplicable':
      doc
        .moveTo(x - r * 0.8, y)
        .lineTo(x + r * 0.8, y)
        .stroke();
      break;
  }
  doc.restore();
}
