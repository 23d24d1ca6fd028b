import PDFDocument from 'pdfkit';
import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { registerFonts } from './fonts.ts';
import { GlyphRuns } from './glyph-runs.ts';

function opened(): { doc: PDFKit.PDFDocument; runs: GlyphRuns } {
  const doc = new PDFDocument({ autoFirstPage: false, font: '' });
  registerFonts(doc);
  return { doc, runs: new GlyphRuns(doc) };
}

describe('words as their face draws them', () => {
  it('are as wide as pdfkit sets them, kerning and ligatures included', () => {
    const { doc, runs } = opened();
    const text = fc.stringMatching(/^[ A-Za-z0-9.,:;/·°–≥áñóüÑ-]{1,40}$/);
    fc.assert(
      fc.property(text, fc.constantFrom('regular', 'semibold', 'italic', 'light'), (line, face) => {
        const theirs = doc.font(face).fontSize(1000).widthOfString(line);
        expect(runs.perThousand(line, face)).toBeCloseTo(theirs, 6);
      }),
      { numRuns: 300 },
    );
  });

  it('say what kerning takes away: “AV” is narrower than its letters', () => {
    const { runs } = opened();
    const letters = runs.perThousand('A', 'regular') + runs.perThousand('V', 'regular');
    expect(runs.perThousand('AV', 'regular')).toBeLessThan(letters);
    // Two glyphs, and between them a number of thousandths that moves the second to the left.
    expect(runs.shown('AV', 'regular')).toMatch(/^<[0-9a-f]{4}>\d+(\.\d+)?<[0-9a-f]{4}>$/);
  });

  it('with a mark that stands off the line are left to pdfkit', () => {
    const { runs } = opened();
    // M with a combining tilde: there is no single sign for it, so the tilde is placed above the letter.
    expect(runs.shown('M\u0303', 'regular')).toBeNull();
    expect(runs.shown('plain M\u0303', 'regular')).toBeNull();
    expect(runs.shown('Ñ', 'regular')).not.toBeNull();
  });
});
