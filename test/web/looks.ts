import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Phone } from './browser.ts';

type Page = Phone['page'];

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

interface Violation {
  readonly id: string;
  readonly nodes: readonly { readonly html: string; readonly failureSummary: string }[];
}

/** What axe-core finds wrong with the page as it is drawn now, WCAG 2.2 AA and its best practices. */
export async function violations(page: Page): Promise<readonly string[]> {
  if (!(await page.evaluate('"axe" in globalThis'))) await page.evaluate(axe);
  const found: readonly Violation[] = await page.evaluate(
    `axe.run(document, { resultTypes: ['violations'], runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] })
       .then((result) => result.violations.map(({ id, nodes }) => ({ id, nodes: nodes.map(({ html, failureSummary }) => ({ html, failureSummary })) })))`,
  );
  return found.flatMap(({ id, nodes }) =>
    nodes.map(({ html, failureSummary }) => `${id}: ${html.slice(0, 160)} ${failureSummary}`),
  );
}

/** Controls too small for a thumb in a glove: less than 44 px high (marks inside a picture have a table beside them). */
export const tooSmall = (page: Page): Promise<readonly string[]> =>
  page.evaluate(`[...document.querySelectorAll('a, button, select, summary, input:not(.unseen), textarea')]
  .filter((each) => !each.closest('.skip') && !each.closest('.amount-entry') && each.getClientRects().length > 0)
  .map((each) => [each, each.closest('label') ?? each])
  .filter(([, box]) => box.getBoundingClientRect().height < 43.5)
  .map(([each]) => each.outerHTML.slice(0, 120))`);

/** How many CSS px the page is wider than its window. */
export const overflow = (page: Page): Promise<number> =>
  page.evaluate(`document.documentElement.scrollWidth - document.documentElement.clientWidth`);

/** Words in the cells of tables that scroll by themselves and still stand on more than one line. */
export const tornWords = (page: Page): Promise<readonly string[]> =>
  page.evaluate(`(() => {
    const troubles = [];
    for (const cell of document.querySelectorAll('.table-wrap :is(td, th)')) {
      const texts = document.createTreeWalker(cell, NodeFilter.SHOW_TEXT);
      while (texts.nextNode()) {
        for (const { 0: word, index } of texts.currentNode.data.matchAll(/\\p{L}{2,}/gu)) {
          const range = document.createRange();
          range.setStart(texts.currentNode, index);
          range.setEnd(texts.currentNode, index + word.length);
          const lines = new Set([...range.getClientRects()].map(({ top }) => Math.round(top)));
          if (lines.size > 1) troubles.push('torn in a table: ' + word);
        }
      }
    }
    return [...new Set(troubles)];
  })()`);

/** Text that a box hides or that lies over other text: what a person would lose. Boxes that scroll by themselves do not count. */
export const cutOff = (page: Page): Promise<readonly string[]> =>
  page.evaluate(`(() => {
    const troubles = [];
    const name = (each) => each.tagName + '.' + String(each.className) + ': ' + each.textContent.trim().slice(0, 60);
    const drawn = (each) => each.checkVisibility({ visibilityProperty: true }) && each.closest('.unseen, .skip') === null;
    const own = (each) => [...each.childNodes].some((node) => node.nodeType === 3 && node.textContent.trim() !== '');
    const wide = document.documentElement.clientWidth;
    for (const each of document.querySelectorAll('body *')) {
      if (!drawn(each) || each.closest('svg') !== null) continue;
      const { overflowX, overflowY } = getComputedStyle(each);
      const hides = (value) => value === 'hidden' || value === 'clip';
      if (hides(overflowX) && each.scrollWidth > each.clientWidth + 1) troubles.push('hides to the side ' + name(each));
      if (hides(overflowY) && each.scrollHeight > each.clientHeight + 1) troubles.push('hides below ' + name(each));
      if (!own(each)) continue;
      const scrolls = each.closest('.table-wrap, .likely') !== null;
      const range = document.createRange();
      range.selectNodeContents(each);
      const box = range.getBoundingClientRect();
      if (!scrolls && (box.right > wide + 1 || box.left < -1)) troubles.push('beyond the edge ' + name(each));
      const home = each.closest('button, .button, .chip, .small-action, .bar-link, summary, td, th');
      if (home === null || scrolls) continue;
      const around = home.getBoundingClientRect();
      if (box.right > around.right + 2 || box.bottom > around.bottom + 2) troubles.push('beyond its box ' + name(each));
    }
    return [...new Set(troubles)];
  })()`);
