/** Bytes that are gathered before they are handed on. */
const atOnce = 1 << 16;

/**
 * pdfkit turns each operator and each line of an object into bytes of its own, sign by sign, and hands each on. A long
 * report has millions. Here they are gathered as text, and turned into bytes together. Every sign of them is one byte.
 */
export function writeQuickly(doc: PDFKit.PDFDocument): void {
  let gathered = '';
  const handOn = (): void => {
    if (gathered !== '') doc.push(Buffer.from(gathered, 'latin1'));
    gathered = '';
  };
  doc._write = (data) => {
    if (typeof data === 'string') {
      gathered += `${data}\n`;
      doc._offset += data.length + 1;
      if (gathered.length >= atOnce || data === '%%EOF') handOn();
      return;
    }
    handOn();
    doc.push(data);
    doc._offset += data.length;
  };
  doc.on('pageAdded', () => {
    gatherOn(doc.page);
  });
}

/** A page's operators, as bytes when the page is finished. */
function gatherOn(page: PDFKit.PDFPage): void {
  let operators = '';
  const write = page.write.bind(page);
  const end = page.end.bind(page);
  page.write = (chunk) => {
    if (typeof chunk !== 'string') throw new Error('a page is written as text');
    operators += `${chunk}\n`;
  };
  page.end = () => {
    write(Buffer.from(operators, 'latin1'));
    operators = '';
    return end();
  };
}
