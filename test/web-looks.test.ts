import { afterAll, afterEach, beforeAll, describe, expect, it } from '@jest/globals';
import { TestService } from './support/service.ts';
import { builtApp, closeBrowser, Phone, type Looks } from './web/browser.ts';
import { farm, type Farm } from './web/farm.ts';
import { overflow, tooSmall, violations } from './web/looks.ts';
import { phoneScreens } from './web/screens.ts';

let service: TestService;
let op: Farm;
let phone: Phone | null = null;
beforeAll(async () => {
  await builtApp();
  service = await TestService.start();
  op = await farm(service);
}, 120_000);
afterEach(async () => {
  await phone?.close();
  phone = null;
}, 30_000);
afterAll(async () => {
  await closeBrowser();
  await service.close();
}, 30_000);

const screens = (): readonly string[] => phoneScreens(op.ids);

/** English words on a screen. What people named themselves (lots, fields, recipes) and what is marked as English stay. */
async function english(page: Phone['page']): Promise<readonly string[]> {
  const text: string = await page.evaluate(
    `(() => { const copy = document.body.cloneNode(true); copy.querySelectorAll('[lang=en]').forEach((each) => each.remove()); return copy.textContent; })()`,
  );
  return (
    text.match(/\b(the|tank|record|recorded|waiting|oxygen|amend|applied|brewing|by|from|left|more|batch)\b/gi) ?? []
  );
}

describe.each<Looks>([
  { theme: 'light', language: 'en' },
  { theme: 'dark', language: 'es' },
  { theme: 'sun', language: 'es' },
  { theme: 'light', language: 'es', size: [1280, 900] },
  { theme: 'dark', language: 'en', size: [1280, 900] },
])('looks: %j', (looks) => {
  it('every screen has no accessibility violation, no sideways scrolling, no target below 44 px, no English left in Spanish', async () => {
    phone = await Phone.open(looks);
    const { page } = phone;
    await phone.signIn(service.url, op);
    const troubles: string[] = [];
    for (const path of screens()) {
      await phone.go(path);
      await phone.settled();
      // The recording button stays at the foot of the screen: what lies under it now is free after scrolling.
      const above = await violations(page);
      await page.evaluate('scrollTo(0, document.body.scrollHeight)');
      const below = above.length === 0 ? [] : await violations(page);
      for (const each of above)
        if (!each.startsWith('target-size') || below.includes(each)) troubles.push(`${path} ${each}`);
      const wide = await overflow(page);
      if (wide > 0) troubles.push(`${path} is ${String(wide)} px too wide`);
      for (const each of await tooSmall(page)) troubles.push(`${path} small: ${each}`);
      if (looks.language === 'es') for (const word of await english(page)) troubles.push(`${path} English: ${word}`);
    }
    expect(troubles).toEqual([]);
    expect(await page.evaluate('document.documentElement.lang')).toBe(looks.language);
    expect(phone.complaints).toEqual([]);
  }, 120_000);
});

describe('states', () => {
  it.each<Looks>([
    { theme: 'light', language: 'en' },
    { theme: 'dark', language: 'es' },
    { theme: 'sun', language: 'en' },
  ])(
    'a warning before it is done, a doubt, a full queue and an ended sign-in have no violation: %j',
    async (looks) => {
      const device = await Phone.open(looks);
      phone = device;
      const { page } = device;
      await device.signIn(service.url, op, `/tank/${op.ids.brewing}/record/ingredient`);
      const troubles: string[] = [];
      const look = async (what: string): Promise<void> => {
        await page.evaluate('scrollTo(0, document.body.scrollHeight)');
        await device.settled();
        for (const each of await violations(page)) troubles.push(`${what} ${each}`);
      };
      await page.getByRole('radio', { name: /FH-26-3/ }).tap();
      await page.getByRole('button', { name: '1', exact: true }).tap();
      await page.locator('.before').waitFor();
      await look('before');
      await page.goto(`${service.url}/tank/${op.ids.brewing}/record/oxygen`);
      for (const key of ['9', '9']) await page.getByRole('button', { name: key, exact: true }).tap();
      await page.locator('.recording-foot button[type=submit]').tap();
      await page.locator('.problem').waitFor();
      await look('doubt');
      await device.context.setOffline(true);
      await page.locator('.recording-foot button[type=submit]').tap();
      await page.locator('.recent-state.waits').first().waitFor();
      await page.locator('.recent-button').first().tap();
      await look('waiting at the tank');
      await page.evaluate(`(() => {
      const kept = JSON.parse(localStorage.getItem('furrowmark.session'));
      localStorage.setItem('furrowmark.session', JSON.stringify({ ...kept, ended: true }));
    })()`);
      await page.goto(`${service.url}/waiting`);
      await page.locator('.queued').first().waitFor();
      await look('queue');
      expect(troubles).toEqual([]);
    },
    90_000,
  );
});

describe('the first page that a phone loads', () => {
  it('carries at most 160 kB of script, compressed, before the core follows', async () => {
    phone = await Phone.open();
    const { page } = phone;
    const { gzipSync } = await import('node:zlib');
    const scripts = new Map<string, number>();
    page.on('response', (response) => {
      if (!response.url().endsWith('.js') || response.url().includes('/sw.js')) return;
      void response.body().then(
        (body) => scripts.set(response.url(), gzipSync(body).byteLength),
        () => undefined,
      );
    });
    await page.goto(service.url);
    await page.getByLabel('Password').waitFor();
    await page.waitForTimeout(300);
    const first = [...scripts.values()].reduce((sum, size) => sum + size, 0);
    expect(scripts.size).toBeGreaterThan(0);
    expect(first).toBeLessThanOrEqual(160 * 1024);
  }, 60_000);
});
