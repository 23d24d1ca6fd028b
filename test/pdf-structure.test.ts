import { describe, expect, it } from '@jest/globals';
import PDFDocument from 'pdfkit';
import { renderPdf } from '@furrowmark/pdf';
import { reportKinds } from '@furrowmark/reports';
import { contentOf, createdAt } from './pdf/corpus.ts';
import { elementsOf, headingsOf, walk } from './pdf/walk.ts';

// ISO 32000-1, 14.7 and 14.8: in a tagged PDF each piece of real content belongs to an element of the structure, and all
// else is marked as an artifact. ISO 14289-1 (PDF/UA), 7.3 and 7.5: figures have an alternative, tables have header cells.
describe.each(
  reportKinds.flatMap(({ kind }) => [
    { kind, language: 'en' as const, paper: 'letter' as const },
    { kind, language: 'es' as const, paper: 'a4' as const },
  ]),
)('the structure of $kind in $language on $paper', ({ kind, language, paper }) => {
  const content = contentOf(kind, language);
  const walked = renderPdf(content, { paper, createdAt }).then(walk);

  it('has every text of every page in an element, or marked as an artifact', async () => {
    const { pages } = await walked;
    expect(pages.length).toBeGreaterThan(0);
    pages.forEach(({ loose, unnamed, tagged }, index) => {
      expect({ page: index + 1, loose, unnamed }).toEqual({ page: index + 1, loose: 0, unnamed: 0 });
      expect(tagged).toBeGreaterThan(0);
    });
  });

  it('names its language, leaves out no level of heading (PDF/UA 7.4.2), and has an outline', async () => {
    const { language: said, bookmarks, root } = await walked;
    expect(said?.slice(0, 2)).toBe(language);
    const levels = headingsOf(root);
    expect(levels[0]).toBe(1);
    levels.forEach((level, index) => expect(level - (levels[index - 1] ?? level)).toBeLessThanOrEqual(1));
    const headings = content.blocks.filter((block) => block.kind === 'heading').length;
    expect(levels.length).toBeGreaterThanOrEqual(headings);
    expect(bookmarks !== 0).toBe(headings > 0);
  });

  it('has header cells in each table and words for each figure', async () => {
    const { root } = await walked;
    for (const table of elementsOf(root, 'Table')) {
      expect(elementsOf(table, 'TH').length).toBeGreaterThan(0);
      const widths = elementsOf(table, 'TR').map(({ children }) => children.length);
      expect(new Set(widths).size).toBe(1);
    }
    for (const figure of elementsOf(root, 'Figure')) expect(figure.alternative ?? '').not.toBe('');
  });
});

it('finds text that nobody tagged, by a document that has some', async () => {
  const document = new PDFDocument({ tagged: true, lang: 'en', info: { Title: 'One line' } });
  const parts: Buffer[] = [];
  document.on('data', (part: Buffer) => parts.push(part));
  const ended = new Promise((resolve) => document.on('end', resolve));
  const element = document.struct('H1', {}, () => {
    document.text('Tagged');
  });
  document.addStructure(element);
  document.text('Not tagged');
  document.end();
  await ended;
  const { pages, root } = walk(Buffer.concat(parts));
  expect(pages).toEqual([{ loose: expect.any(Number), unnamed: 0, tagged: 1 }]);
  expect(pages[0]?.loose).toBeGreaterThan(0);
  expect(headingsOf(root)).toEqual([1]);
});
