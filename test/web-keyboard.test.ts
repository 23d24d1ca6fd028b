import { afterAll, afterEach, beforeAll, describe, expect, it } from '@jest/globals';
import { TestService } from './support/service.ts';
import { builtApp, closeBrowser, Phone, type Looks } from './web/browser.ts';
import { farm, type Farm } from './web/farm.ts';
import { focused, tabThrough, tabTo } from './web/keyboard.ts';
import { screens } from './web/screens.ts';

let service: TestService;
let op: Farm;
let phone: Phone;
beforeAll(async () => {
  await builtApp();
  service = await TestService.start();
  op = await farm(service);
}, 120_000);
afterEach(() => phone.close(), 30_000);
afterAll(async () => {
  await closeBrowser();
  await service.close();
}, 30_000);

async function open(path: string, looks: Looks = { size: [1280, 900] }): Promise<Phone['page']> {
  phone = await Phone.open(looks);
  const { page } = phone;
  await page.goto(`${service.url}${path}#token=${op.tokens.manager}&operation=${op.operationId}`);
  await page.locator('h1').first().waitFor();
  return page;
}

/** Waits for a record that the page wrote. */
async function written(type: string, fits: (data: Readonly<Record<string, unknown>>) => boolean): Promise<void> {
  for (let tries = 0; tries < 150; tries += 1) {
    const { json } = await service.get(
      `/api/v1/operations/${op.operationId}/records?limit=1000&type=${type}`,
      op.tokens.manager,
    );
    if (json.records.some(({ data }: { data: Readonly<Record<string, unknown>> }) => fits(data))) return;
    await new Promise((done) => setTimeout(done, 150));
  }
  throw new Error(`waited in vain for ${type}`);
}

describe('with the keyboard alone', () => {
  it('from the tanks to a tank, an oxygen reading is typed and recorded', async () => {
    const page = await open('/');
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
    expect(phone.complaints).toEqual([]);
  }, 90_000);

  it('a batch is opened, its tank chosen with the arrow keys', async () => {
    const page = await open('/start');
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
    const page = await open('/batches');
    await tabTo(page, page.getByRole('link', { name: /T-29/ }));
    await page.keyboard.press('Enter');
    const mark = page.locator('.picture .selectable').first();
    await mark.waitFor();
    await tabTo(page, mark);
    await page.keyboard.press('Enter');
    expect(await mark.getAttribute('aria-pressed')).toBe('true');
  }, 90_000);

  it('a finding is answered', async () => {
    const page = await open('/findings');
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
    const page = await open('/reviews');
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
    const page = await open('/reports');
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
    const page = await open('/');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    expect((await focused(page))?.what).toContain('id="main"');
  }, 60_000);

  it.each<Looks>([{ size: [1280, 900] }, { size: [390, 844], language: 'es', theme: 'sun' }])(
    'Tab goes through every screen, is seen wherever it is, and gets out: %j',
    async (looks) => {
      const page = await open('/', looks);
      const troubles: string[] = [];
      for (const path of screens(op)) {
        await phone.go(path);
        await page.waitForTimeout(400);
        for (const each of await tabThrough(page)) troubles.push(`${path} ${each}`);
      }
      expect(troubles).toEqual([]);
    },
    300_000,
  );
});
