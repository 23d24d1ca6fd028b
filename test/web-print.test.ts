import { readFileSync } from 'node:fs';
import { afterAll, afterEach, beforeAll, describe, expect, it } from '@jest/globals';
import { drawnTextOf, run, textOf, withPdf } from './pdf/programs.ts';
import type { Looks, Phone } from './web/browser.ts';
import { Scene } from './web/scene.ts';

// What Chromium prints, read back with poppler (pdftotext, pdftoppm).

let scene: Scene;
beforeAll(async () => {
  scene = await Scene.start();
}, 120_000);
afterEach(() => scene.closePage(), 30_000);
afterAll(() => scene.close(), 30_000);

const printed = (page: Phone['page'], format: 'Letter' | 'A4'): Promise<Buffer> => page.pdf({ format });

/** Letters and figures alone: how lines are broken and blanks drawn is the reader's affair. */
const bare = (text: string): string => text.replace(/[^\p{L}\p{N}.,\f]/gu, '');

interface Word {
  readonly text: string;
  readonly right: number;
  readonly wide: number;
}

/** Every printed word with its right edge and the width of its page, points. */
function words(pdf: Buffer): readonly Word[] {
  const found: Word[] = [];
  let wide = 0;
  for (const line of withPdf(pdf, (path) => run('pdftotext', '-bbox', path, '-')).split('\n')) {
    wide = Number(/<page width="([\d.]+)"/.exec(line)?.[1] ?? wide);
    const word = /xMax="([\d.]+)".*>([^<]*)<\/word>/.exec(line);
    if (word !== null) found.push({ text: word[2] ?? '', right: Number(word[1]), wide });
  }
  return found;
}

/** How much of the pages is dark, 0 to 1: a page printed in the colours of a dark screen is mostly so, or wholly bare. */
function darkness(pdf: Buffer): number {
  const grey = withPdf(pdf, (path) => {
    run('pdftoppm', '-r', '40', '-gray', '-singlefile', path, `${path}-page`);
    return readFileSync(`${path}-page.pgm`);
  });
  const pixels = [...grey.subarray(15)];
  return pixels.filter((value) => value < 100).length / pixels.length;
}

/** Words of the frame and of forms that are of no use on paper. */
const screenWords = /To the content|On this phone|All recorded|Attach a document|As it was known|Al contenido/;

describe('on paper', () => {
  it.each<Looks & { format: 'Letter' | 'A4' }>([
    { theme: 'light', size: [1280, 900], format: 'Letter' },
    { theme: 'dark', size: [390, 844], format: 'A4' },
    { theme: 'sun', size: [1600, 900], format: 'A4' },
  ])(
    'a batch’s page has its picture, verdicts, account and every record, on white: %j',
    async ({ format, ...looks }) => {
      const page = await scene.open(`/batch/${scene.op.ids.finished}`, looks);
      await page.locator('.one-verdict').first().waitFor();
      const pdf = await printed(page, format);
      const text = drawnTextOf(pdf);
      for (const each of ['Quillfen Growers', 'T-29', 'WC 6.5 lb', 'KM 1.9 lb', '7.8', '265 gal', 'North 4', '12 gal'])
        expect(bare(text)).toContain(bare(each));
      expect(text.match(/Recorded \d/g)?.length).toBeGreaterThanOrEqual(13);
      expect(text).not.toMatch(screenWords);
      expect(words(pdf).filter(({ right, wide }) => right > wide - 20)).toEqual([]);
      const dark = darkness(pdf);
      expect(dark).toBeGreaterThan(0.003);
      expect(dark).toBeLessThan(0.25);
    },
    90_000,
  );

  it('a plan has its strip, and a work sheet of which nothing is torn over two pages', async () => {
    const page = await scene.open('/plan', { size: [1280, 900], theme: 'dark' });
    await page.locator('label.chip', { hasText: 'North 4' }).click();
    await page.locator('label.chip', { hasText: 'South 1' }).click();
    await page.locator('label.chip', { hasText: 'Tote 1' }).click();
    await page.locator('label.chip', { hasText: 'Cone 500' }).click();
    await page.getByLabel(/^Recipe/).selectOption({ label: 'House tea' });
    await page.getByRole('button', { name: 'Lay out the brews' }).click();
    await page.getByRole('img', { name: /one axis of time/ }).waitFor();
    const sheets = await page.locator('.sheets > section').allInnerTexts();
    const pdf = await printed(page, 'Letter');
    const text = textOf(pdf);
    expect(sheets.length).toBeGreaterThan(0);
    expect(text).not.toMatch(/Lay out the brews|Print\b/);
    expect(text).not.toMatch(screenWords);
    const pages = bare(text).split('\f');
    for (const sheet of sheets) {
      const [title = '', ...lines] = sheet.split('\n').filter((line) => line.trim() !== '');
      const on = pages.find((each) => each.includes(bare(title)));
      for (const line of lines) expect(on).toContain(bare(line));
    }
    expect(words(pdf).filter(({ right, wide }) => right > wide - 20)).toEqual([]);
  }, 90_000);
});

describe('the picture of a batch', () => {
  it('names each of six ingredients that went in together, and keeps the words off each other and off the oxygen', async () => {
    const lots = ['kelp1', 'fish1', 'worm2', 'vitamin1'] as const;
    for (const [i, lot] of lots.entries())
      await scene.op.write('batch.ingredientAdded', 18 * 60 - i, {
        ...{ batchId: scene.op.ids.brewing, lotId: scene.op.ids[lot] },
        quantity: { value: 3 + i, unit: lot === 'fish1' ? '[gal_us]' : '[lb_av]' },
      });
    for (const size of [
      [1280, 900],
      [390, 844],
    ] as const) {
      const page = await scene.open(`/batch/${scene.op.ids.brewing}`, { size });
      const label = page.locator('.picture .mark-label');
      await page.locator('.picture').getByText('VC 6 lb').waitFor();
      const texts = await label.allTextContents();
      for (const each of ['WC 6.5 lb', 'KM 1.9 lb', 'KM 3 lb', 'FH 4 gal', 'WC 5 lb', 'VC 6 lb'])
        expect(texts).toContain(each);
      const boxes: readonly { left: number; right: number; top: number; bottom: number; text: string }[] = await page
        .locator('.picture text')
        .evaluateAll((all) =>
          all.map((each) => {
            const { left, right, top, bottom } = each.getBoundingClientRect();
            return { left, right, top, bottom, text: each.textContent ?? '' };
          }),
        );
      const touching = boxes.flatMap((a, i) =>
        boxes
          .slice(i + 1)
          .filter((b) => a.left < b.right && b.left < a.right && a.top + 3 < b.bottom && b.top + 3 < a.bottom)
          .map((b) => `${a.text} · ${b.text}`),
      );
      expect(touching).toEqual([]);
    }
  }, 120_000);
});
