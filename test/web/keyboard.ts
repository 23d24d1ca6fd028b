import type { Locator } from 'playwright-core';
import type { Phone } from './browser.ts';

type Page = Phone['page'];

/** What has the focus: a mark that stays with the element, what it is, and whether a person can see that it has it. */
export interface Focus {
  readonly mark: number;
  readonly what: string;
  readonly trouble: string | null;
}

/**
 * The element in focus; null where the focus has left the page. Trouble is a focus that is not drawn (WCAG 2.4.7: neither
 * an outline of at least 2 px on it, nor on what stands for it), and one wholly covered by something else (2.4.11).
 */
export const focused = (page: Page): Promise<Focus | null> =>
  page.evaluate(`(() => {
    const it = document.activeElement;
    if (it === null || it === document.body || it === document.documentElement) return null;
    globalThis.marks ??= new WeakMap();
    globalThis.lastMark ??= 0;
    if (!marks.has(it)) marks.set(it, ++lastMark);
    const outlined = (each) => {
      const { outlineStyle, outlineWidth } = getComputedStyle(each);
      return outlineStyle !== 'none' && parseFloat(outlineWidth) >= 2;
    };
    const due = () => {
      const probe = document.body.appendChild(document.createElement('i'));
      probe.style.color = 'var(--due)';
      const colour = getComputedStyle(probe).color;
      probe.remove();
      return colour;
    };
    const stroked = (each) => parseFloat(getComputedStyle(each).strokeWidth) >= 2 && getComputedStyle(each).stroke === (globalThis.dueColour ??= due());
    const around = [it, it.nextElementSibling, it.closest('label'), it.closest('.amount-display')];
    const drawn = [
      ...around.filter((each) => each !== null && outlined(each)),
      // In a picture the place of the mark is framed.
      ...(it instanceof SVGElement ? [...it.children].filter(stroked) : []),
    ];
    const what = it.outerHTML.slice(0, 110);
    if (it.id === 'main') return { mark: marks.get(it), what, trouble: null };
    if (drawn.length === 0) return { mark: marks.get(it), what, trouble: 'its focus is not drawn' };
    const box = drawn[0].getBoundingClientRect();
    const points = [0.1, 0.5, 0.9].flatMap((x) => [0.1, 0.5, 0.9].map((y) => [box.left + box.width * x, box.top + box.height * y]));
    const seen = points.some(([x, y]) => {
      const top = document.elementFromPoint(x, y);
      // Marks of one minute lie on each other in a picture, on transparent ground.
      if (top !== null && it instanceof SVGElement) return top.closest('svg') === it.closest('svg');
      return top !== null && (drawn[0].contains(top) || top.contains(it) && top.closest('.recording-foot, .bar') === it.closest('.recording-foot, .bar'));
    });
    return { mark: marks.get(it), what, trouble: seen ? null : 'it is covered or out of view' };
  })()`);

/** Presses Tab until `wanted` has the focus; every stop on the way must be seen. */
export async function tabTo(page: Page, wanted: Locator, most = 150): Promise<void> {
  let last = 0;
  for (let i = 0; i < most; i += 1) {
    if (await wanted.evaluate((each) => each === each.ownerDocument.activeElement)) return;
    await page.keyboard.press('Tab');
    const at = await focused(page);
    // Day, month, year and the calendar of a date are a stop each; the browser draws them.
    const same = at?.mark === last;
    last = at?.mark ?? 0;
    if (!same && at !== null && at.trouble !== null) throw new Error(`${at.what}: ${at.trouble}`);
  }
  throw new Error(`Tab never got to ${String(wanted)}`);
}

/**
 * Goes through a screen with Tab alone, from its beginning until the focus leaves it. What is wrong: a focus that cannot
 * be seen, a stop that is passed twice (a trap), and controls that are in view and never reached.
 */
export async function tabThrough(page: Page, most = 400): Promise<readonly string[]> {
  const troubles: string[] = [];
  const passed = new Set<number>();
  let last = 0;
  await page.evaluate(
    `(() => { document.activeElement?.blur(); getSelection().removeAllRanges(); scrollTo(0, 0); })()`,
  );
  // Sequential focus begins at the top again.
  await page.evaluate(
    `(() => { const top = document.createElement('span'); top.tabIndex = -1; document.body.prepend(top); top.focus(); top.remove(); })()`,
  );
  for (let i = 0; i < most; i += 1) {
    await page.keyboard.press('Tab');
    const at = await focused(page);
    if (at === null) break;
    const same = at.mark === last;
    last = at.mark;
    if (same) continue;
    if (passed.has(at.mark)) {
      // A browser without its own bars begins anew.
      if (at.mark !== Math.min(...passed)) troubles.push(`${at.what}: Tab comes back to it`);
      break;
    }
    passed.add(at.mark);
    if (at.trouble !== null) troubles.push(`${at.what}: ${at.trouble}`);
  }
  const missed: readonly string[] = await page.evaluate(`(() => {
    const seen = ${JSON.stringify([...passed])};
    const groups = new Set();
    return [...document.querySelectorAll('a[href], button:not(:disabled), select, summary, input, textarea, [tabindex="0"]')]
      .filter((each) => each.getClientRects().length > 0 && each.checkVisibility() && !each.disabled && each.tabIndex >= 0)
      // A set of radio buttons is one stop.
      .filter((each) => each.type !== 'radio' || ![...document.getElementsByName(each.name)].some((other) => seen.includes(marks.get(other))))
      .filter((each) => !seen.includes(marks.get(each)))
      .map((each) => each.outerHTML.slice(0, 110) + ': Tab never gets to it');
  })()`);
  return [...troubles, ...missed];
}
