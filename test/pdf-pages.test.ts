import { describe, expect, it } from '@jest/globals';
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import pixelmatch from 'pixelmatch';
import { PNG } from 'pngjs';
import { renderPdf } from '@furrowmark/pdf';
import { contentOf, createdAt } from './pdf/corpus.ts';
import { run, textOf, withPdf } from './pdf/programs.ts';

// Pages that were looked at and approved, small and grey, beside what the program sets today. After a change that is meant:
// RENEW_GOLDEN=pages npm test -- test/pdf-pages, then look at each image that git shows as changed.
const approved = join(import.meta.dirname, 'golden', 'pages');
const renew = process.env['RENEW_GOLDEN'] === 'pages';
const pages = [
  ['batch-record', 'en', 'letter', 1],
  ['batch-record', 'en', 'letter', 2],
  ['batch-record', 'es', 'a4', 1],
  ['lot-trace', 'en', 'letter', 1],
  ['recall-sheet', 'en', 'letter', 1],
  ['season-applications', 'en', 'letter', 1],
  ['mass-balance', 'es', 'a4', 1],
  ['findings', 'en', 'letter', 1],
  ['field-history', 'en', 'letter', 1],
  ['neighbours-and-buffers', 'en', 'letter', 1],
  ['tank-sheet', 'en', 'letter', 1],
  ['inspection-packet', 'en', 'letter', 1],
] as const;
/** Of all pixels, how many may differ: edges of letters fall a little differently with another version of the renderer. */
const tolerated = 0.002;

/** A page as a grey picture at 50 dots an inch. */
const pictureOf = (bytes: Uint8Array, page: number): Buffer =>
  withPdf(bytes, (path, folder) => {
    const number = String(page);
    run('pdftoppm', '-r', '50', '-gray', '-png', '-f', number, '-l', number, path, join(folder, 'page'));
    const name = readdirSync(folder).find((each) => each.endsWith('.png')) ?? '';
    return readFileSync(join(folder, name));
  });

/** The share of pixels that a reader would see as other ones; 1 where the size is another. */
function differing(a: Buffer, b: Buffer): number {
  const [was, is] = [PNG.sync.read(a), PNG.sync.read(b)];
  if (was.width !== is.width || was.height !== is.height) return 1;
  const many = pixelmatch(was.data, is.data, undefined, was.width, was.height, { threshold: 0.25 });
  return many / (was.width * was.height);
}

const rendered = new Map<string, Promise<Uint8Array>>();
const render = (kind: string, language: 'en' | 'es', paper: 'letter' | 'a4'): Promise<Uint8Array> => {
  const key = `${kind} ${language}`;
  const known = rendered.get(key) ?? renderPdf(contentOf(kind, language), { paper, createdAt });
  rendered.set(key, known);
  return known;
};

describe('pages as they were approved', () => {
  it.each(pages)('%s in %s on %s, page %i', async (kind, language, paper, page) => {
    const picture = pictureOf(await render(kind, language, paper), page);
    const place = join(approved, `${kind}-${language}-${String(page)}.png`);
    if (renew) {
      mkdirSync(approved, { recursive: true });
      if (!existsSync(place) || differing(readFileSync(place), picture) > 0) writeFileSync(place, picture);
    }
    const share = differing(readFileSync(place), picture);
    if (share > tolerated) {
      const out = join(import.meta.dirname, '..', 'out');
      mkdirSync(out, { recursive: true });
      writeFileSync(join(out, `differs-${kind}-${language}-${String(page)}.png`), picture);
    }
    expect(share).toBeLessThanOrEqual(tolerated);
  });

  it('a table that lost a column, and a heading that moved by a line, differ by more than is tolerated', async () => {
    const content = contentOf('season-applications', 'en');
    const before = pictureOf(await renderPdf(content, { paper: 'letter', createdAt }), 1);
    const narrower = content.blocks.map((block) =>
      block.kind === 'table'
        ? {
            ...block,
            columns: block.columns.slice(0, -1),
            rows: block.rows.map((row) => row.slice(0, -1)),
            ...(block.total === undefined ? {} : { total: block.total.slice(0, -1) }),
          }
        : block,
    );
    const lost = pictureOf(await renderPdf({ ...content, blocks: narrower }, { paper: 'letter', createdAt }), 1);
    expect(differing(before, lost)).toBeGreaterThan(tolerated);
    const pushed = [{ kind: 'paragraph' as const, text: 'One line more.' }, ...content.blocks];
    const moved = pictureOf(await renderPdf({ ...content, blocks: pushed }, { paper: 'letter', createdAt }), 1);
    expect(differing(before, moved)).toBeGreaterThan(tolerated);
  });

  it('a name to sign with and its date are on one page, wherever the page ends', async () => {
    const content = contentOf('tank-sheet', 'en');
    const signed = ['Reviewed by', 'Date and time'].map((label) => ({ kind: 'blank' as const, label, lines: 1 }));
    const pagesOfLabels = new Set<string>();
    for (let above = 20; above <= 40; above += 1) {
      const lines = Array.from({ length: above }, () => ({ kind: 'paragraph' as const, text: 'A line above.' }));
      const bytes = await renderPdf({ ...content, blocks: [...lines, ...signed] }, { paper: 'letter', createdAt });
      const sheets = textOf(bytes).split('\f');
      const on = signed.map(({ label }) => sheets.findIndex((text) => text.includes(label)));
      expect(on[0]).toBe(on[1]);
      pagesOfLabels.add(String(on[0]));
    }
    // The page ended somewhere on the way.
    expect(pagesOfLabels.size).toBeGreaterThan(1);
  }, 60_000);
});
