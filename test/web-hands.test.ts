import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import { TestService } from './support/service.ts';
import { builtApp, closeBrowser, heading, Phone, type Looks } from './web/browser.ts';
import { farm, type Farm } from './web/farm.ts';
import { overflow, tooSmall, violations } from './web/looks.ts';

let service: TestService;
let op: Farm;
let shared: { readonly token: string; readonly accountId: string };
let accounts: { readonly ines: string; readonly tobin: string };
const phones: Phone[] = [];
beforeAll(async () => {
  await builtApp();
  service = await TestService.start();
}, 120_000);
beforeEach(async () => {
  op = await farm(service);
  shared = await manage('/phones', { label: 'phone at the tanks' });
  const person = async (name: string, pin: string, role = 'recorder'): Promise<string> =>
    (await manage('/members', { name, role, pin })).accountId;
  accounts = { ines: await person('Ines Harrow', '4831'), tobin: await person('Tobin Quay', '7302', 'reviewer') };
}, 60_000);
afterEach(async () => {
  for (const phone of phones.splice(0)) await phone.close();
}, 30_000);
afterAll(async () => {
  await closeBrowser();
  await service.close();
}, 30_000);

async function manage(path: string, body: object): Promise<{ token: string; accountId: string }> {
  const answer = await fetch(`${service.url}/api/v1/operations/${op.operationId}${path}`, {
    method: 'POST',
    headers: { authorization: `Bearer ${op.tokens.manager}`, 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });
  if (!answer.ok) throw new Error(await answer.text());
  return JSON.parse(await answer.text());
}

/** The phone that several people share, with the link open that the manager made for it. */
async function sharedPhone(path = '/', looks: Looks = {}): Promise<Phone> {
  const phone = await Phone.open(looks);
  phones.push(phone);
  await phone.page.goto(`${service.url}${path}#token=${shared.token}&operation=${op.operationId}`);
  await phone.page.locator('.hand-link').waitFor();
  await phone.page.locator(heading).first().waitFor();
  await phone.page.evaluate('navigator.serviceWorker.ready.then(() => true)');
  return phone;
}

async function enterPin({ page }: Phone, who: RegExp, pin: string): Promise<void> {
  await page.locator('.hand-link').tap();
  await page.getByRole('button', { name: who }).tap();
  for (const key of pin) await page.getByRole('button', { name: key, exact: true }).tap();
  await page.getByRole('button', { name: /It is me|Soy yo/ }).tap();
}

async function takes(phone: Phone, who: 'Ines Harrow' | 'Tobin Quay', pin: string): Promise<void> {
  await enterPin(phone, new RegExp(who), pin);
  await phone.page.getByRole('link', { name: `${who} holds this phone.` }).waitFor();
}

async function reading({ page }: Phone, value: string): Promise<void> {
  await page.goto(`${service.url}/tank/${op.ids.brewing}/record/oxygen`);
  for (const key of value)
    await page.getByRole('button', { name: key === '.' ? 'decimal point' : key, exact: true }).tap();
  await page.getByRole('button', { name: 'Record', exact: true }).tap();
  await page.getByText('Recorded here').waitFor();
}

interface Entry {
  readonly recordedBy: string;
  readonly performedBy?: string;
  readonly data: { readonly dissolvedOxygen: { readonly value: number } };
}

/** The readings that came after the farm's own two, once there are so many. */
async function readings(count: number): Promise<readonly (readonly [number, string, string | undefined])[]> {
  for (let tries = 0; tries < 150; tries += 1) {
    const { json } = await service.get(
      `/api/v1/operations/${op.operationId}/records?limit=1000&type=batch.oxygenMeasured`,
      op.tokens.manager,
    );
    const records: readonly Entry[] = json.records.filter(
      ({ recordedBy }: Entry) => recordedBy !== op.accounts.recorder,
    );
    if (records.length >= count)
      return records.map((each) => [each.data.dissolvedOxygen.value, each.recordedBy, each.performedBy]);
    await new Promise((done) => setTimeout(done, 200));
  }
  throw new Error('waited in vain');
}

describe('a phone that several people share', () => {
  it('is taken by initials and a PIN; what is recorded from then on is in that person’s name, until the next one takes it', async () => {
    const phone = await sharedPhone();
    const { page } = phone;
    expect(await page.locator('.hand-link').innerText()).toBe('?');
    await enterPin(phone, /Ines Harrow/, '9999');
    await page.getByText('The PIN is not right.').waitFor();
    await page.goto(service.url);
    await takes(phone, 'Ines Harrow', '4831');
    expect(await page.locator('.hand-link').innerText()).toBe('IH');
    await reading(phone, '7.4');
    await readings(1);
    await takes(phone, 'Tobin Quay', '7302');
    await reading(phone, '7.3');
    expect(await readings(2)).toEqual([
      [7.4, accounts.ines, op.ids.ines],
      [7.3, accounts.tobin, op.ids.tobin],
    ]);
    await page.locator('.hand-link').tap();
    await page.getByRole('button', { name: 'I put it down' }).tap();
    await reading(phone, '7.2');
    expect((await readings(3)).at(-1)).toEqual([7.2, shared.accountId, undefined]);
    expect(phone.complaints).toEqual([]);
  }, 120_000);

  it('a table brought in is recorded in the name of whoever holds it', async () => {
    const phone = await sharedPhone();
    const { page } = phone;
    await takes(phone, 'Ines Harrow', '4831');
    await page.goto(`${service.url}/intake`);
    const buffer = Buffer.from('Lot code,Product,Qty,Received\nIN-1,kelp meal,5 lb,2026-04-12\n');
    await page.getByLabel('Choose the file').setInputFiles({ name: 'lots.csv', mimeType: 'text/csv', buffer });
    await page.getByText('1 good, 0 wrong').waitFor();
    await page.getByRole('button', { name: 'Record the row' }).click();
    const path = `/api/v1/operations/${op.operationId}/records?limit=1000&type=lot.received`;
    const brought = async (): Promise<Entry | undefined> => {
      const { json } = await service.get(path, op.tokens.manager);
      return json.records.find(({ data }: { data: { code: string } }) => data.code === 'IN-1');
    };
    for (let tries = 0; tries < 150 && (await brought()) === undefined; tries += 1) await page.waitForTimeout(200);
    expect((await brought())?.recordedBy).toBe(accounts.ines);
  }, 120_000);

  it('a review is signed by its holder with the PIN; a wrong one signs nothing', async () => {
    const phone = await sharedPhone();
    const { page } = phone;
    await takes(phone, 'Tobin Quay', '7302');
    await page.goto(`${service.url}/reviews`);
    const card = page.getByRole('article', { name: 'T-29' });
    await card.locator('summary').tap();
    const sign = async (pin: string): Promise<void> => {
      await card.getByLabel('Your PIN, once more').fill(pin);
      await card.getByRole('button', { name: 'Sign', exact: true }).tap();
    };
    await sign('4831');
    await card
      .getByRole('alert')
      .getByText(/Nothing was signed/)
      .waitFor();
    await sign('7302');
    await card.waitFor({ state: 'detached' });
    const path = `/api/v1/operations/${op.operationId}/records?limit=1000&type=batch.reviewed`;
    const { json } = await service.get(path, op.tokens.manager);
    expect(json.records).toEqual([
      expect.objectContaining({
        recordedBy: accounts.tobin,
        data: expect.objectContaining({ batchId: op.ids.finished, meaning: 'reviewed' }),
      }),
    ]);
  }, 120_000);

  it('what waits on it stays in the name of whoever entered it, through any change of hands', async () => {
    const phone = await sharedPhone();
    const { page, context } = phone;
    let reception = false;
    await context.route('**/api/v1/operations/*/records', (route) =>
      reception || route.request().method() !== 'POST' ? route.continue() : route.abort('timedout'),
    );
    await takes(phone, 'Ines Harrow', '4831');
    await reading(phone, '7.4');
    await takes(phone, 'Tobin Quay', '7302');
    await reading(phone, '7.3');
    await page.goto(`${service.url}/waiting`);
    const cards = page.locator('.queued');
    await cards.nth(1).waitFor();
    await cards.filter({ hasText: '7.4 mg/L' }).getByText('Ines Harrow').waitFor();
    await cards.filter({ hasText: '7.3 mg/L' }).getByText('Tobin Quay').waitFor();
    reception = true;
    await page.getByRole('button', { name: 'Send now' }).tap();
    // Ines has left: her record is delivered by the phone, never in Tobin's name, and says who took the reading.
    expect(await readings(2)).toEqual([
      [7.4, shared.accountId, op.ids.ines],
      [7.3, accounts.tobin, op.ids.tobin],
    ]);
  }, 120_000);

  it('asks again after half an hour untouched, and then what waits is delivered by the phone', async () => {
    const phone = await sharedPhone();
    const { page, context } = phone;
    await takes(phone, 'Ines Harrow', '4831');
    await context.setOffline(true);
    await reading(phone, '7.4');
    await page.evaluate(`(() => {
      const kept = JSON.parse(localStorage.getItem('furrowmark.session'));
      const touchedAt = kept.hand.touchedAt - 31 * 60_000;
      localStorage.setItem('furrowmark.session', JSON.stringify({ ...kept, hand: { ...kept.hand, touchedAt } }));
    })()`);
    await page.reload();
    await page.getByRole('link', { name: 'Who holds this phone?' }).waitFor();
    await context.setOffline(false);
    expect(await readings(1)).toEqual([[7.4, shared.accountId, op.ids.ines]]);
  }, 90_000);

  it('without reception the PIN is not asked: each record says by initials who did it', async () => {
    const phone = await sharedPhone();
    const { page, context } = phone;
    await context.setOffline(true);
    await page.locator('.hand-link').tap();
    await page.getByText('The PIN needs reception.').waitFor();
    await page.goto(`${service.url}/tank/${op.ids.brewing}/record/oxygen`);
    await page.getByRole('button', { name: 'TQ', exact: true }).tap();
    for (const key of '68') await page.getByRole('button', { name: key, exact: true }).tap();
    await page.getByRole('button', { name: 'erase' }).tap();
    await page.getByRole('button', { name: 'Record', exact: true }).tap();
    await page.getByRole('link', { name: /1 waiting for reception/ }).waitFor();
    await context.setOffline(false);
    expect(await readings(1)).toEqual([[6, shared.accountId, op.ids.tobin]]);
  }, 90_000);

  it('a PIN that is taken away ends the hand, and no record is lost by it', async () => {
    const phone = await sharedPhone();
    await takes(phone, 'Ines Harrow', '4831');
    const desk = await Phone.open({ size: [1280, 900] });
    phones.push(desk);
    await desk.page.goto(`${service.url}/access#token=${op.tokens.manager}&operation=${op.operationId}`);
    const ines = desk.page.getByRole('listitem').filter({ hasText: 'Ines Harrow' });
    await ines.getByText('has a PIN').waitFor();
    await ines.locator('summary').click();
    await ines.getByRole('button', { name: 'Take the PIN away: Ines Harrow' }).click();
    await ines.getByRole('button', { name: 'Take the PIN away', exact: true }).click();
    await ines.getByText('has a PIN').waitFor({ state: 'detached' });
    await reading(phone, '7.1');
    expect(await readings(1)).toEqual([[7.1, shared.accountId, op.ids.ines]]);
    await phone.page.getByRole('link', { name: 'Who holds this phone?' }).waitFor();
    await ines.getByLabel('PIN for shared phones').fill('6205');
    await ines.getByRole('button', { name: 'Set the PIN' }).click();
    await ines.getByText('has a PIN').waitFor();
    await takes(phone, 'Ines Harrow', '6205');
    expect(desk.complaints).toEqual([]);
  }, 90_000);

  it.each<Looks>([
    { language: 'en', theme: 'light' },
    { language: 'es', theme: 'dark' },
    { language: 'es', theme: 'sun', size: [320, 640] },
  ])(
    'large keys, nothing too wide, nothing that a reading aid misses: %j',
    async (looks) => {
      const phone = await sharedPhone('/hand', looks);
      const { page } = phone;
      await page.getByRole('button', { name: /Tobin Quay/ }).tap();
      await page.getByLabel(/PIN (of|de) Tobin Quay/).waitFor();
      expect([await violations(page), await tooSmall(page), await overflow(page)]).toEqual([[], [], 0]);
      const keys = await page
        .locator('.keypad button')
        .evaluateAll((all) => all.map((each) => each.getBoundingClientRect().height));
      expect([keys.length, Math.min(...keys)]).toEqual([11, expect.any(Number)]);
      expect(Math.min(...keys)).toBeGreaterThanOrEqual(44);
    },
    60_000,
  );
});
