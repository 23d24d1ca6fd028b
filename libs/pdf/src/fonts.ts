import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { FontName } from './paper.ts';

const require = createRequire(import.meta.url);
const file = (folder: string): Buffer =>
  readFileSync(require.resolve(`@expo-google-fonts/source-sans-3/${folder}/SourceSans3_${folder}.ttf`));

/**
 * Source Sans 3 (SIL Open Font License 1.1), whole files, embedded as subsets. Its figures are all of one width, so
 * columns of numbers line up. Read once; parsed by pdfkit once per document.
 */
const sources: Readonly<Record<FontName, Buffer>> = {
  light: file('300Light'),
  regular: file('400Regular'),
  semibold: file('600SemiBold'),
  italic: file('400Regular_Italic'),
};

/**
 * Registers the faces by name. Only registered names may be used afterwards: a font given by its path is parsed again at
 * every use, which is a hundred times slower.
 */
export function registerFonts(doc: PDFKit.PDFDocument): void {
  for (const [name, source] of Object.entries(sources)) doc.registerFont(name, source);
}

/** Signs that leave no ink and are dropped: variation selectors, soft hyphen, zero-width joiners, byte order mark. */
const inkless = /[\ufe00-\ufe0f\u00ad\u200b\u200c\u200d\u2060\ufeff]/g;

/** Makes text printable with the faces at hand, and remembers whether anything had to be replaced. */
export class Printable {
  readonly #doc: PDFKit.PDFDocument;
  readonly #known = new Map<number, boolean>();
  /** Some sign was printed as its number. */
  replaced = false;

  constructor(doc: PDFKit.PDFDocument) {
    this.#doc = doc;
  }

  #has(codePoint: number): boolean {
    const known = this.#known.get(codePoint);
    if (known !== undefined) return known;
    this.#doc.font('regular');
    const has = codePoint >= 0x20 && this.#doc._font.font.hasGlyphForCodePoint(codePoint);
    this.#known.set(codePoint, has);
    return has;
  }

  /** Plain text, which is nearly all, is printable as it is: every face has the signs of ASCII. */
  static readonly #plain = /^[\x20-\x7e\n]*$/;

  /** The text with every sign that the face lacks written as `[U+6F22]`; line breaks stay, tabs become spaces. */
  text(written: string): string {
    if (Printable.#plain.test(written)) return written;
    let out = '';
    for (const sign of written.replace(/\r\n?/g, '\n').replace(/\t/g, ' ').replace(inkless, '')) {
      const codePoint = sign.codePointAt(0) ?? 0xfffd;
      if (sign === '\n' || this.#has(codePoint)) out += sign;
      else {
        out += `[U+${codePoint.toString(16).toUpperCase().padStart(4, '0')}]`;
        this.replaced = true;
      }
    }
    return out;
  }
}
