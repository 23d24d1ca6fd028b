import type { TextStyle } from './paper.ts';

/**
 * "of 12": the number of pages is known only at the end, while finished pages are already written. So each page draws the
 * same form XObject, whose one content stream is written last.
 */
export class PageTotal {
  readonly #doc: PDFKit.PDFDocument;
  readonly #style: TextStyle;
  readonly #form: PDFKit.PDFKitReference;

  constructor(doc: PDFKit.PDFDocument, style: TextStyle) {
    this.#doc = doc;
    this.#style = style;
    doc.font(style.font);
    this.#form = doc.ref({
      Type: 'XObject',
      Subtype: 'Form',
      BBox: [0, -4, 60, 12],
      Resources: { Font: { [doc._font.id]: doc._font.ref() } },
    });
  }

  /** Draws the total in the current colour with its baseline at `y`. */
  draw(x: number, y: number): void {
    this.#doc.page.xobjects['Total'] = this.#form;
    this.#doc.save().transform(1, 0, 0, -1, x, y);
    this.#doc.addContent('/Total Do');
    this.#doc.restore();
  }

  finish(pages: number): void {
    const font = this.#doc.font(this.#style.font)._font;
    const [codes] = font.encode(String(pages));
    this.#form.end(`BT /${font.id} ${this.#style.size} Tf 0 0 Td <${codes.join('')}> Tj ET`);
  }
}
