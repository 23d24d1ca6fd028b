import type { TextStyle } from './paper.ts';

/** Points that a late number has room in: five digits of any face of a report. */
export const lateNumberWidth = 30;

/**
 * "of 12", or the page on which a part begins: known only later, while pages that tell it are already written. So each
 * place draws a form XObject (ISO 32000-1, 8.10), whose content stream is written when the number is known.
 */
export class LateNumber {
  readonly #doc: PDFKit.PDFDocument;
  readonly #style: TextStyle;
  readonly #form: PDFKit.PDFKitReference;
  readonly #name: string;

  /** `name`: unlike any other on the same page. */
  constructor(doc: PDFKit.PDFDocument, style: TextStyle, name: string) {
    this.#doc = doc;
    this.#style = style;
    this.#name = name;
    doc.font(style.font);
    this.#form = doc.ref({
      Type: 'XObject',
      Subtype: 'Form',
      BBox: [0, -4, lateNumberWidth, 12],
      Resources: { Font: { [doc._font.id]: doc._font.ref() } },
    });
  }

  /** Draws the number in the current colour with its baseline at `y`. */
  draw(x: number, y: number): void {
    this.#doc.page.xobjects[this.#name] = this.#form;
    this.#doc.save().transform(1, 0, 0, -1, x, y);
    this.#doc.addContent(`/${this.#name} Do`);
    this.#doc.restore();
  }

  /** Writes the number; where there is none to tell, a stream that draws nothing. */
  finish(number: number | undefined, align: 'left' | 'right' = 'left'): void {
    if (number === undefined) {
      this.#form.end('n');
      return;
    }
    const font = this.#doc.font(this.#style.font)._font;
    const [codes, positions] = font.encode(String(number));
    const width = positions.reduce((sum, { xAdvance }) => sum + xAdvance, 0) * (this.#style.size / 1000);
    const left = align === 'left' ? 0 : Math.round((lateNumberWidth - width) * 1000) / 1000;
    this.#form.end(`BT /${font.id} ${this.#style.size} Tf ${left} 0 Td <${codes.join('')}> Tj ET`);
  }
}
