export { pdfStream, renderPdf, type PdfOptions } from './render.ts';
export type { Paper } from './paper.ts';
