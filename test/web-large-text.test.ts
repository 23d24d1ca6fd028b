import { afterAll, afterEach, beforeAll, describe, expect, it } from '@jest/globals';
import type { Looks } from './web/browser.ts';
import { cutOff, overflow, tornWords } from './web/looks.ts';
import { Scene } from './web/scene.ts';
import { screens } from './web/screens.ts';

// WCAG 2.2: text to 200 % without loss (1.4.4); 320 CSS px wide without scrolling in two directions (1.4.10).

let scene: Scene;
beforeAll(async () => {
  scene = await Scene.start();
}, 120_000);
afterEach(() => scene.closePage(), 30_000);
afterAll(() => scene.close(), 30_000);

describe.each<Looks>([
  { text: 200, size: [1280, 900] },
  { text: 200, size: [390, 844], language: 'es' },
  { text: 100, size: [320, 640], language: 'es', theme: 'sun' },
  { text: 200, size: [320, 640] },
])('%j', (looks) => {
  it('nothing is cut off on any screen, no word of a table is torn, and none scrolls sideways', async () => {
    const page = await scene.open('/', looks);
    // 17 px, or twice that.
    const size = await page.evaluate('parseFloat(getComputedStyle(document.documentElement).fontSize)');
    expect(size).toBe(looks.text === 200 ? 34 : 17);
    const troubles: string[] = [];
    for (const path of screens(scene.op)) {
      await scene.phone.go(path);
      await scene.phone.settled();
      const wide = await overflow(page);
      if (wide > 0) troubles.push(`${path} is ${String(wide)} px too wide`);
      for (const each of await tornWords(page)) troubles.push(`${path} ${each}`);
      for (const each of await cutOff(page)) troubles.push(`${path} ${each}`);
    }
    expect(troubles).toEqual([]);
  }, 180_000);
});
