import { Printable } from './fonts.ts';
import { GlyphRuns } from './glyph-runs.ts';
import type { TextStyle } from './paper.ts';

/**
 * Where a long word may be cut when it does not fit a line: after these, or before a hyphen, else anywhere. Never after a
 * hyphen: readers that put lines together again would drop it, and an id would come back shorter than it is.
 */
const softBreak = /[/_.,:;=@+·]/;

/** More signs than a line of a page holds. */
const mostInLine = 1_000;

/** Measures and wraps text in the document's faces. */
export class Typesetter {
  readonly printable: Printable;
  readonly runs: GlyphRuns;

  constructor(doc: PDFKit.PDFDocument) {
    this.printable = new Printable(doc);
    this.runs = new GlyphRuns(doc);
  }

  /** Width in points of one line of text that is already printable. */
  width(text: string, style: TextStyle): number {
    return (this.runs.perThousand(text, style.font) * style.size) / 1000;
  }

  /** The widest piece of a text that cannot be broken at a space. */
  longestWord(text: string, style: TextStyle): number {
    return Math.max(0, ...text.split(/[ \n]+/).map((word) => this.width(word, style)));
  }

  /** Lines no wider than `width`; a word longer than that is cut. Empty text gives one empty line. */
  wrap(text: string, style: TextStyle, room: number): string[] {
    // A column made exactly as wide as its widest word must hold it, whatever the sums of fractions say.
    const width = room + 0.05;
    const lines: string[] = [];
    for (const paragraph of text.split('\n')) lines.push(...this.#wrapParagraph(paragraph, style, width));
    return lines;
  }

  #wrapParagraph(paragraph: string, style: TextStyle, width: number): string[] {
    if (this.width(paragraph, style) <= width) return [paragraph];
    const lines: string[] = [];
    let line = '';
    for (const word of paragraph.split(' ')) {
      const joined = line === '' ? word : `${line} ${word}`;
      if (this.width(joined, style) <= width) {
        line = joined;
        continue;
      }
      // The space stays at the line's end: without it, reading aloud and copying would join two words.
      if (line !== '') lines.push(`${line} `);
      line = word;
      while (this.width(line, style) > width) {
        const fitting = this.#fitting(line, style, width);
        lines.push(line.slice(0, fitting));
        line = line.slice(fitting);
      }
    }
    lines.push(line);
    return lines;
  }

  /** How many code units of a too long word fit, at least one sign; after a soft break when one is near the end. */
  #fitting(word: string, style: TextStyle, width: number): number {
    let count = 0;
    let softly = 0;
    let used = 0;
    for (const sign of word) {
      used += this.width(sign, style);
      if (sign === '-' && count > 0) softly = count;
      if (used > width && count > 0) break;
      count += sign.length;
      if (softBreak.test(sign)) softly = count;
    }
    return softly > count / 2 && count < word.length ? softly : count;
  }

  /** One line, cut with an ellipsis where it is too wide. For headers only: content is wrapped, never cut. */
  clip(text: string, style: TextStyle, width: number): string {
    // What people wrote may be of any length, and a header is set on every page.
    const most = text.slice(0, mostInLine);
    if (most === text && this.width(text, style) <= width) return text;
    let [fits, beyond] = [0, most.length + 1];
    while (beyond - fits > 1) {
      const middle = Math.floor((fits + beyond) / 2);
      if (this.width(`${most.slice(0, middle)}…`, style) <= width) fits = middle;
      else beyond = middle;
    }
    return `${most
      .slice(0, fits)
      .replace(/[\ud800-\udbff]$/, '')
      .trimEnd()}…`;
  }
}
