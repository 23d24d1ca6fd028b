import { createHash } from 'node:crypto';
import { setImmediate as breathe } from 'node:timers/promises';
import PDFDocument from 'pdfkit';
import type { ReportContent } from '@furrowmark/reports';
import { attachData } from './attachments.ts';
import { drawBlocks, orientations } from './blocks/index.ts';
import { Outline } from './blocks/heading.ts';
import { drawText } from './blocks/text.ts';
import { MetadataText } from './metadata-text.ts';
import { drawOpening } from './opening.ts';
import { registerFonts } from './fonts.ts';
import { ink, type, type Paper } from './paper.ts';
import { writeQuickly } from './quick-writing.ts';
import { Sheet } from './sheet.ts';

export interface PdfOptions {
  readonly paper: Paper;
  /** The creation date written into the file. The same content and date give the same bytes. */
  readonly createdAt: Date;
  /** `PDF/A-3b` (default) carries the data as attachments; `PDF/A-1b` cannot carry files, for validators that know only it. */
  readonly conformance?: 'PDF/A-3b' | 'PDF/A-1b';
  /** Told now and then how much is set, from 0 to 1. */
  readonly progress?: (share: number) => void;
}

function openDocument(content: ReportContent, options: PdfOptions): PDFKit.PDFDocument {
  const conformance = options.conformance ?? 'PDF/A-3b';
  const doc = new PDFDocument({
    pdfVersion: conformance === 'PDF/A-1b' ? '1.4' : '1.7',
    subset: conformance,
    tagged: true,
    lang: content.language,
    displayTitle: true,
    autoFirstPage: false,
    // Empty: no default face. pdfkit would otherwise add Helvetica, which an archival file may not use unembedded.
    font: '',
    info: { CreationDate: options.createdAt, Creator: 'Furrowmark', Producer: 'Furrowmark' },
  });
  Object.assign(doc.info, {
    Title: new MetadataText(`${content.title} · ${content.operation.name}`),
    Author: new MetadataText(content.operation.name),
  });
  doc._id = createHash('sha256').update(JSON.stringify(content)).digest().subarray(0, 16);
  registerFonts(doc);
  writeQuickly(doc);
  return doc;
}

/** Lays the report out page by page; after each step the bytes that are ready can be read from the document. */
function* typeset(content: ReportContent, options: PdfOptions, doc: PDFKit.PDFDocument): Generator<number> {
  const sheet = new Sheet(doc, content, options.paper);
  const runs = orientations(sheet, content.blocks);
  sheet.newPage(runs[0] ?? false);
  drawOpening(sheet);
  const outline = new Outline();
  yield* drawBlocks(sheet, content.blocks, outline, runs);
  outline.finish(sheet);
  if (sheet.set.printable.replaced) {
    drawText(sheet, sheet.root, 'P', sheet.words.notPrintable, type.small, { color: ink.quiet });
  }
  sheet.finish();
  if (options.conformance !== 'PDF/A-1b') attachData(doc, content, options.createdAt, sheet.words.data);
  doc.end();
}

/**
 * The report as PDF in pieces, each as soon as it is written: a long packet needs neither the memory of all its pages
 * nor the thread for all its time.
 */
export async function* pdfChunks(content: ReportContent, options: PdfOptions): AsyncGenerator<Uint8Array> {
  const doc = openDocument(content, options);
  let sinceBreath = 0;
  for (const share of typeset(content, options, doc)) {
    options.progress?.(share);
    const ready = doc.read();
    if (ready !== null) yield ready;
    sinceBreath += 1;
    if (sinceBreath >= 8) {
      sinceBreath = 0;
      await breathe();
    }
  }
  for (let rest = doc.read(); rest !== null; rest = doc.read()) yield rest;
}
