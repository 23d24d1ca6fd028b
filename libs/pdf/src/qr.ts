import QRCode from 'qrcode';

/** Draws a QR code (ISO/IEC 18004, level M) as filled rectangles in a square of `size` points, quiet zone not included. */
export function drawQr(doc: PDFKit.PDFDocument, text: string, x: number, y: number, size: number): void {
  const { modules } = QRCode.create(text, { errorCorrectionLevel: 'M' });
  const unit = size / modules.size;
  doc.save().fillColor('#000000');
  for (let row = 0; row < modules.size; row += 1) {
    for (let column = 0; column < modules.size; column += 1) {
      if (modules.get(row, column) === 0) continue;
      let run = 1;
      while (column + run < modules.size && modules.get(row, column + run) !== 0) run += 1;
      doc.rect(x + column * unit, y + row * unit, run * unit, unit);
      column += run;
    }
  }
  doc.fill().restore();
}
