import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { requests, season } from './bench/records.ts';
import { TestService } from './support/service.ts';
import { builtApp, Phone } from './web/browser.ts';
import { farm, type Farm } from './web/farm.ts';

// Ten thousand records on a phone whose processor is four times slower than this one: Chromium's own throttling, and its
// own event timing, from the touch until the picture that answers it (Event Timing, W3C; steps of 8 ms).
const size = 10_000;
const slower = 4;

let service: TestService;
let op: Farm;
let phone: Phone;
beforeAll(async () => {
  await builtApp();
  service = await TestService.start();
  op = await farm(service);
  for (const records of requests(season(size - 200), 500)) {
    // Resending records nothing twice: a connection that the busy service let go is no matter.
    const send = () => service.append(op.operationId, op.tokens.manager, records);
    const answer = await send().catch(send);
    const refused = answer.json?.results?.find((each: { status: string }) => each.status !== 'recorded');
    if (answer.status !== 200 || refused !== undefined) throw new Error(JSON.stringify(refused ?? answer.json));
  }
  phone = await Phone.kept();
}, 300_000);
afterAll(async () => {
  await phone.close();
  await service.close();
}, 60_000);

interface Measured {
  readonly name: string;
  readonly duration: number;
}

const watch = `
  globalThis.felt = [];
  new PerformanceObserver((list) => {
    for (const { name, duration } of list.getEntries()) felt.push({ name, duration });
  }).observe({ type: 'event', durationThreshold: 16 });
  globalThis.held = [];
  new PerformanceObserver((list) => {
    for (const { duration } of list.getEntries()) held.push(duration);
  }).observe({ type: 'longtask' });`;

/** How much of the log the phone has: the whole of it. */
const whole = `new Promise((done) => {
  const opening = indexedDB.open('furrowmark');
  opening.onsuccess = () => {
    const db = opening.result;
    const look = () => {
      const get = db.transaction('entries').objectStore('entries').count();
      get.onsuccess = () => (get.result >= ${String(size - 200)} ? (db.close(), done(get.result)) : setTimeout(look, 300));
    };
    look();
  };
})`;

describe(`a phone with ${size.toLocaleString('en')} records, its processor four times slower`, () => {
  it('shows what was judged last at once, and answers every touch while the season is folded and judged', async () => {
    const { page } = phone;
    await page.addInitScript(watch);
    await phone.signIn(service.url, op);
    expect(await page.evaluate(whole)).toBeGreaterThan(size - 300);
    await page.getByRole('article').first().waitFor();
    // The last picture is written a moment later.
    await page.waitForTimeout(31_000);

    const throttle = await page.context().newCDPSession(page);
    await throttle.send('Emulation.setCPUThrottlingRate', { rate: slower });
    await page.reload({ waitUntil: 'commit' });
    const started = Date.now();
    await page.getByRole('article').filter({ hasText: 'Tote 2' }).waitFor();
    const first = Date.now() - started;
    // At once, while the core and the records are still on their way.
    await page
      .getByRole('article')
      .getByRole('link', { name: /Tote 2/ })
      .tap();
    await page.getByRole('link', { name: /Record oxygen/ }).tap();
    await page.getByRole('button', { name: '7', exact: true }).waitFor();
    const form = Date.now() - started;
    for (const key of ['7', 'decimal point', '2', '1']) {
      await page.getByRole('button', { name: key, exact: true }).tap();
      await page.waitForTimeout(150);
    }
    await page.getByRole('button', { name: 'Record', exact: true }).tap();
    await page.getByRole('button', { name: /Oxygen 7.21 mg\/L/ }).waitFor();
    await page.getByRole('button', { name: 'Something else…' }).tap();
    await page.getByRole('button', { name: 'Less', exact: true }).tap();
    await page.getByRole('link', { name: 'Batches', exact: true }).tap();
    await page.getByRole('link', { name: /T-31/ }).waitFor();
    await page.getByRole('link', { name: 'Tanks', exact: true }).tap();
    await page.getByRole('article').first().waitFor();
    await page.waitForTimeout(1_000);

    const felt: readonly Measured[] = await page.evaluate('felt');
    const held: readonly number[] = await page.evaluate('held');
    const taps = felt.filter(({ name }) => ['click', 'pointerup', 'pointerdown', 'touchend'].includes(name));
    const sorted = taps.map(({ duration }) => duration).sort((a, b) => a - b);
    const worst = sorted.at(-1) ?? 0;
    const median = sorted[Math.floor(sorted.length / 2)] ?? 0;
    process.stdout.write(
      `${JSON.stringify({ first, form, taps: sorted.length, median, worst, longestTask: Math.max(0, ...held) })}\n`,
    );
    expect(sorted.length).toBeGreaterThan(5);
    // Loose: the machine is shared. What was measured on a quiet one stands in docs/performance.md.
    expect(median).toBeLessThan(200);
    expect(worst).toBeLessThan(1_000);
    expect(phone.complaints).toEqual([]);
  }, 240_000);
});
