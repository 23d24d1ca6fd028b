import { afterAll, afterEach, beforeAll, describe, expect, it } from '@jest/globals';
import type { Looks } from './web/browser.ts';
import { focused, tabThrough, tabTo } from './web/keyboard.ts';
import { Scene } from './web/scene.ts';
import { screens } from './web/screens.ts';

let scene: Scene;
beforeAll(async () => {
  scene = await Scene.start();
}, 120_000);
afterEach(() => scene.closePage(), 30_000);
afterAll(() => scene.close(), 30_000);

const desk: Looks = { size: [1280, 900] };

/** Waits for a record that the page wrote. */
async function written(type: string, fits: (data: Readonly<Record<string, unknown>>) => boolean): Promise<void> {
  for (let tries = 0; tries < 150; tries += 1) {
    const { json } = await scene.service.get(
      `/api/v1/operations/${scene.op.operationId}/records?limit=1000&type=${type}`,
      scene.op.tokens.manager,
    );
    if (json.records.some(({ data }: { data: Readonly<Record<string, unknown>> }) => fits(data))) return;
    await new Promise((done) => setTimeout(done, 150));
  }
  throw new Error(`waited in vain for ${type}`);
}

describe('with the keyboard alone', () => {
  it('from the tanks to a tank, an oxygen reading is typed and recorded', async () => {
    const page = await scene.open('/', desk);
    await tabTo(page, page.getByRole('link', { name: /Tote 2/ }));
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: /T-31/ }).or(page.getByText('T-31').first()).first().waitFor();
    await tabTo(page, page.getByRole('link', { name: /^Oxygen$|Record oxygen/ }).first());
    await page.keyboard.press('Enter');
    await tabTo(page, page.getByLabel(/oxygen/i).first());
    await page.keyboard.type('7.2');
    await page.keyboard.press('Enter');
    await written(
      'batch.oxygenMeasured',
      ({ dissolvedOxygen }) => Reflect.get(Object(dissolvedOxygen), 'value') === 7.2,
    );
    await page.getByText('Recorded here').waitFor();
    expect(scene.phone.complaints).toEqual([]);
  }, 90_000);

  it('a batch is opened, its tank chosen with the arrow keys', async () => {
    const page = await scene.open('/start', desk);
    const tank = page.getByRole('group', { name: 'Tank' }).getByRole('radio');
    await tank.first().waitFor();
    await tabTo(page, tank.and(page.locator(':checked')).or(tank.first()).first());
    await page.keyboard.press('ArrowDown');
    await tabTo(page, page.getByLabel('Batch code'));
    await page.keyboard.press('Control+a');
    await page.keyboard.type('T-77');
    await tabTo(page, page.getByRole('button', { name: 'Open it, fill later' }));
    await page.keyboard.press('Space');
    await written('batch.opened', ({ code }) => code === 'T-77');
  }, 90_000);

  it('a batch’s page is opened from the list and a record chosen in its picture', async () => {
    const page = await scene.open('/batches', desk);
    await tabTo(page, page.getByRole('link', { name: /T-29/ }));
    await page.keyboard.press('Enter');
    const mark = page.locator('.picture .selectable').first();
    await mark.waitFor();
    await tabTo(page, mark);
    await page.keyboard.press('Enter');
    expect(await mark.getAttribute('aria-pressed')).toBe('true');
  }, 90_000);

  it('a finding is answered', async () => {
    const page = await scene.open('/findings', desk);
    const finding = page.getByRole('article').first();
    await tabTo(page, finding.getByText('Answer', { exact: true }));
    await page.keyboard.press('Enter');
    await tabTo(page, finding.getByLabel(/^Cause/));
    await page.keyboard.type('The list was read late.');
    await tabTo(page, finding.getByLabel(/^Action/));
    await page.keyboard.type('It is read on Mondays.');
    await tabTo(page, finding.getByRole('radio', { checked: true }));
    await page.keyboard.press('ArrowRight');
    await tabTo(page, finding.getByRole('button', { name: 'Record', exact: true }));
    await page.keyboard.press('Enter');
    await written('finding.answered', ({ cause, state }) => cause === 'The list was read late.' && state === 'open');
  }, 90_000);

  it('a review is signed', async () => {
    const page = await scene.open('/reviews', desk);
    const opened = page.getByRole('button', { name: 'Sign', exact: true });
    await tabTo(page, page.locator('summary', { hasText: 'Sign T-29' }));
    await page.keyboard.press('Enter');
    await tabTo(page, page.getByRole('radio', { name: /reviewed:/ }).first());
    await page.keyboard.press('ArrowDown');
    await tabTo(page, opened.first());
    await page.keyboard.press('Enter');
    await written('batch.reviewed', ({ meaning }) => meaning === 'approved');
  }, 90_000);

  it('a report is made', async () => {
    const page = await scene.open('/reports', desk);
    const kind = page.getByRole('combobox').first();
    await kind.waitFor();
    await tabTo(page, kind);
    const before = await kind.inputValue();
    await page.keyboard.press('ArrowDown');
    expect(await kind.inputValue()).not.toBe(before);
    await tabTo(page, page.getByRole('button', { name: 'CSV' }));
    const download = page.waitForEvent('download');
    await page.keyboard.press('Enter');
    expect((await download).suggestedFilename()).toMatch(/\.csv$/);
  }, 90_000);

  it('the first stop leads past the bar to the content', async () => {
    const page = await scene.open('/', desk);
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    expect((await focused(page))?.what).toContain('id="main"');
  }, 60_000);

  it.each<Looks>([{ size: [1280, 900] }, { size: [390, 844], language: 'es', theme: 'sun' }])(
    'Tab goes through every screen, is seen wherever it is, and gets out: %j',
    async (looks) => {
      const page = await scene.open('/', looks);
      const troubles: string[] = [];
      for (const path of screens(scene.op)) {
        await scene.phone.go(path);
        await scene.phone.settled();
        for (const each of await tabThrough(page)) troubles.push(`${path} ${each}`);
      }
      expect(troubles).toEqual([]);
    },
    300_000,
  );
});
