import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import { TestService } from './support/service.ts';
import { builtApp, Phone } from './web/browser.ts';
import { farm, type Farm } from './web/farm.ts';

const day = 86_400_000;

let service: TestService;
let op: Farm;
/** How far the service's clock is ahead of this machine's, ms. */
let ahead = 0;
let phone: Phone | null = null;
beforeAll(async () => {
  await builtApp();
  service = await TestService.start({ clock: { now: () => Date.now() + ahead } });
}, 120_000);
beforeEach(async () => {
  ahead = 0;
  op = await farm(service);
}, 60_000);
afterEach(async () => {
  await phone?.close();
  phone = null;
}, 30_000);
afterAll(() => service.close(), 30_000);

/** The phone's own clock, so many days ahead of this machine's from the next page on. */
async function clockAt(of: Phone, days: number): Promise<void> {
  await of.context.addInitScript(`{
    const Real = globalThis.RealDate ?? Date;
    const ahead = ${String(days * day)};
    globalThis.RealDate = Real;
    globalThis.Date = class extends Real {
      constructor(...given) { if (given.length === 0) super(Real.now() + ahead); else super(...given); }
      static now() { return Real.now() + ahead; }
    };
  }`);
}

/** Records an oxygen reading without reception. */
async function reading({ page }: Phone, value: string): Promise<void> {
  await page.goto(`${service.url}/tank/${op.ids.brewing}/record/oxygen`);
  for (const key of value)
    await page.getByRole('button', { name: key === '.' ? 'decimal point' : key, exact: true }).tap();
  const record = page.getByRole('button', { name: 'Record', exact: true });
  await record.tap();
  await page.getByText('Recorded here').waitFor();
}

interface Entry {
  readonly occurredAt: string;
  readonly enteredAt: string;
  readonly data: { readonly batchId: string; readonly dissolvedOxygen: { readonly value: number } };
}

/** The readings of the batch in the log's own order, without the two that the farm began with. */
async function readings(token: string): Promise<readonly Entry[]> {
  const path = `/api/v1/operations/${op.operationId}/records?limit=1000&type=batch.oxygenMeasured`;
  const { json } = await service.get(path, token);
  const own: readonly Entry[] = json.records.filter(({ data }: Entry) => data.batchId === op.ids.brewing);
  return own.slice(2);
}

/** A phone signed in with a token that works for three days, at the tank, then out of reception for good. */
async function atTheTank(): Promise<Phone> {
  const { recorder: accountId } = op.accounts;
  const { token } = await service.service.issueToken({ accountId, label: 'phone', lifeDays: 3 });
  const opened = await Phone.kept();
  await opened.signIn(service.url, { ...op, tokens: { ...op.tokens, recorder: token } });
  await opened.page.getByRole('link', { name: /All recorded/ }).waitFor();
  await opened.context.setOffline(true);
  return opened;
}

/** Off and on again, on another day; still without reception. */
async function onAgain(before: Phone, days: number): Promise<Phone> {
  const after = await before.restarted();
  await clockAt(after, days);
  await after.context.setOffline(true);
  return after;
}

/** Reception is back, the sign-in is not: nothing goes until there is a new one, then everything does. */
async function signInAgain({ page, context }: Phone, waiting: number, token: string): Promise<void> {
  const queued = page.locator('.queued');
  await page.goto(`${service.url}/waiting`);
  await queued.nth(waiting - 1).waitFor();
  await context.setOffline(false);
  await page.reload();
  await page.getByRole('link', { name: `Sign-in has ended · ${String(waiting)} wait here` }).waitFor();
  await queued.nth(waiting - 1).waitFor();
  expect(await queued.count()).toBe(waiting);
  expect(await readings(token)).toEqual([]);
  await page.getByText('I have a token or a link').tap();
  await page.getByLabel('Token or link').fill(token);
  await page.getByRole('button', { name: 'Use this token' }).tap();
  await page.getByText('Nothing waits here.').waitFor();
}

describe('a phone that was off for seven days, its sign-in ended meanwhile', () => {
  it('loses nothing: every record goes out in order after signing in, each at the time at which it was made', async () => {
    const began = Date.now();
    phone = await atTheTank();
    await reading(phone, '7.4');
    await reading(phone, '7.3');
    phone = await onAgain(phone, 2);
    await reading(phone, '6.9');
    phone = await onAgain(phone, 7);
    await reading(phone, '6.6');
    ahead = 7 * day;
    await signInAgain(phone, 4, op.tokens.recorder);
    const sent = await readings(op.tokens.recorder);
    expect(sent.map(({ data }) => data.dissolvedOxygen.value)).toEqual([7.4, 7.3, 6.9, 6.6]);
    const days = sent.map(({ occurredAt }) => Math.floor((Date.parse(occurredAt) - began) / day));
    expect(days).toEqual([0, 0, 2, 7]);
    for (const { occurredAt, enteredAt } of sent)
      expect(Math.abs(Date.parse(enteredAt) - Date.parse(occurredAt))).toBeLessThan(60_000);
    expect(phone.complaints).toEqual([]);
  }, 180_000);

  it('keeps the order of entry where the clock of the phone has fallen back', async () => {
    phone = await atTheTank();
    phone = await onAgain(phone, 6);
    await reading(phone, '7.4');
    // The battery was empty: the phone thinks that it is the first day again.
    phone = await onAgain(phone, 0);
    await reading(phone, '7.3');
    ahead = 7 * day;
    await signInAgain(phone, 2, op.tokens.recorder);
    const sent = await readings(op.tokens.recorder);
    expect(sent.map(({ data }) => data.dissolvedOxygen.value)).toEqual([7.4, 7.3]);
  }, 120_000);
});
