import { Readable } from 'node:stream';
import type { ReportContent } from '@furrowmark/reports';
import type { PdfOptions } from './render.ts';

/** The typesetter and its faces are loaded with the first report: a service that nobody asks for one does without. */
async function* chunks(content: ReportContent, options: PdfOptions): AsyncGenerator<Uint8Array> {
  const { pdfChunks } = await import('./render.ts');
  yield* pdfChunks(content, options);
}

/** The report as a stream of PDF bytes. */
export function pdfStream(content: ReportContent, options: PdfOptions): Readable {
  return Readable.from(chunks(content, options), { objectMode: false });
}

/** The report as one PDF file: PDF/A-3b, tagged, with its data attached as JSON and CSV. */
export async function renderPdf(content: ReportContent, options: PdfOptions): Promise<Uint8Array> {
  const all: Uint8Array[] = [];
  for await (const chunk of chunks(content, options)) all.push(chunk);
  return Buffer.concat(all);
}
