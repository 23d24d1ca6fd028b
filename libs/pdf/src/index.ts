export { pdfStream, renderPdf } from './on-paper.ts';
export type { PdfOptions } from './render.ts';
export type { Paper } from './paper.ts';
