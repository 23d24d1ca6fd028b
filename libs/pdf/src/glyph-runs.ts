import type { FontName } from './paper.ts';

/** A word as its face draws it. */
interface Run {
  /** The elements of a TJ array (ISO 32000-1, 9.4.3): glyph codes, and between them what kerning takes away. */
  readonly shown: string;
  /** Width for a size of one point, times 1,000. */
  readonly perThousand: number;
  /** False where glyphs are moved off the line (marks above letters), which TJ cannot say. */
  readonly inLine: boolean;
}

/** Words are taken with the space that follows them: no kerning reaches over it. */
function wordEnd(text: string, from: number): number {
  const space = text.indexOf(' ', from);
  return space < 0 ? text.length : space + 1;
}

/** When so many words of a face are known, they are forgotten: a long season has ever new codes and figures. */
const mostKnown = 20_000;

/**
 * What words look like in each face. A word is shaped once, for measuring and for drawing alike; the size only scales it.
 * pdfkit shapes at each of the two and keeps every glyph's object for good, which is most of a long table's time and memory.
 */
export class GlyphRuns {
  readonly #doc: PDFKit.PDFDocument;
  readonly #known = new Map<FontName, Map<string, Run>>();

  constructor(doc: PDFKit.PDFDocument) {
    this.#doc = doc;
  }

  /** Width in points of one line of printable text at a size of one point, times 1,000. */
  perThousand(text: string, face: FontName): number {
    let sum = 0;
    for (let from = 0, to = 0; from < text.length; from = to) {
      to = wordEnd(text, from);
      sum += this.#run(text.slice(from, to), face).perThousand;
    }
    return sum;
  }

  /** The TJ array that draws one line of printable text; null where some glyph is off the line. */
  shown(text: string, face: FontName): string | null {
    let out = '';
    for (let from = 0, to = 0; from < text.length; from = to) {
      to = wordEnd(text, from);
      const run = this.#run(text.slice(from, to), face);
      if (!run.inLine) return null;
      out += run.shown;
    }
    return out;
  }

  #run(word: string, face: FontName): Run {
    let known = this.#known.get(face);
    if (known === undefined || known.size > mostKnown) this.#known.set(face, (known = new Map<string, Run>()));
    let run = known.get(word);
    if (run === undefined) known.set(word, (run = this.#shape(word, face)));
    return run;
  }

  #shape(word: string, face: FontName): Run {
    // No features of its own: the face's usual ones; and pdfkit does not keep what it shaped for named features.
    const [codes, positions] = this.#doc.font(face)._font.encode(word, []);
    let shown = '';
    let open = '';
    let perThousand = 0;
    let inLine = true;
    positions.forEach(({ xAdvance, advanceWidth, xOffset, yOffset }, index) => {
      if (xOffset !== 0 || yOffset !== 0) inLine = false;
      open += codes[index] ?? '';
      perThousand += xAdvance;
      const taken = advanceWidth - xAdvance;
      if (taken === 0) return;
      shown += `<${open}>${Math.round(taken * 1000) / 1000}`;
      open = '';
    });
    if (open !== '') shown += `<${open}>`;
    return { shown, perThousand, inLine };
  }
}
