import { randomUUID } from 'node:crypto';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import { TestService } from './support/service.ts';
import { until } from './support/until.ts';
import { builtApp, closeBrowser, Phone } from './web/browser.ts';
import { ago, farm, type Farm } from './web/farm.ts';

let service: TestService;
let op: Farm;
let phone: Phone;
beforeAll(async () => {
  await builtApp();
  service = await TestService.start();
}, 120_000);
beforeEach(async () => {
  op = await farm(service);
  phone = await Phone.open();
}, 60_000);
afterEach(() => phone.close(), 30_000);
afterAll(async () => {
  await closeBrowser();
  await service.close();
}, 30_000);

interface Entry {
  readonly id: string;
  readonly type: string;
  readonly occurredAt: string;
  readonly performedBy?: string;
  readonly data: Readonly<Record<string, unknown>>;
}

async function log(after = 0): Promise<readonly Entry[]> {
  const answer = await service.get(
    `/api/v1/operations/${op.operationId}/records?limit=1000&after=${String(after - 1)}`.replace('&after=-1', ''),
    op.tokens.manager,
  );
  return answer.json.records;
}
const about = async (batchId: string, type: string): Promise<readonly Entry[]> =>
  (await log()).filter((each) => each.type === type && each.data['batchId'] === batchId);

const pick = (page: Phone['page'], name: string) =>
  page.getByRole('radio', { name }).or(page.getByRole('checkbox', { name })).first();

describe('at the tank', () => {
  it('an oxygen reading takes three taps from the list of tanks', async () => {
    const { page } = phone;
    await phone.signIn(service.url, op);
    await page
      .getByRole('article')
      .filter({ hasText: 'Tote 2' })
      .getByRole('link', { name: /Record oxygen/ })
      .tap();
    await page.getByRole('button', { name: '7.0', exact: true }).tap();
    await page.getByRole('button', { name: 'Record', exact: true }).tap();
    await page.getByText('Recorded here').waitFor();
    const [, , reading] = await until(async () => {
      const all = await about(op.ids.brewing, 'batch.oxygenMeasured');
      return all.length === 3 && all;
    });
    // The only meter there is was taken along; the time is that of the touch.
    expect(reading?.data).toEqual({
      batchId: op.ids.brewing,
      dissolvedOxygen: { value: 7, unit: 'mg/L' },
      instrumentId: op.ids.meter,
    });
    expect(Math.abs(Date.parse(reading?.occurredAt ?? '') - Date.now())).toBeLessThan(60_000);
    await page.getByRole('button', { name: /Oxygen 7 mg\/L/ }).waitFor();
    expect(phone.complaints).toEqual([]);
  }, 60_000);

  it('a whole brew is recorded by touch alone, from filling to closing', async () => {
    const { page } = phone;
    await phone.signIn(service.url, op);
    // Who holds the phone, said once.
    await page.getByRole('link', { name: /Cone 500/ }).tap();
    const record = () => page.getByRole('button', { name: 'Record', exact: true }).tap();
    const choose = (name: string) => pick(page, name).tap();
    await page.getByRole('link', { name: 'Look, smell' }).waitFor({ state: 'hidden' });
    await page.getByRole('link', { name: 'Chlorine' }).tap();
    await page.getByRole('button', { name: '0–0.5 mg/L' }).tap();
    await page.getByRole('button', { name: 'TQ' }).tap();
    await record();
    // The weigh-out: each ingredient with one touch, from the lot that may be used.
    await page.getByRole('button', { name: 'In, now' }).nth(1).waitFor();
    await page.getByRole('button', { name: 'In, now' }).first().tap();
    await page.getByText('brewing', { exact: true }).waitFor();
    await page.getByRole('button', { name: 'In, now' }).first().tap();
    await page.getByText('brewing', { exact: true }).waitFor();
    await page.getByRole('link', { name: 'Air off' }).tap();
    await choose('power cut');
    await record();
    await page.getByText('held, no air').waitFor();
    // The air off is not left standing: getting it back on is what is asked for next.
    await page.getByRole('link', { name: /Air is on.*left/ }).tap();
    await record();
    await page.getByText('brewing', { exact: true }).waitFor();
    await page.getByRole('link', { name: 'Draw' }).tap();
    for (const key of ['2', '7', '0']) await page.getByRole('button', { name: key, exact: true }).tap();
    await choose('Sprayer A');
    await record();
    await page
      .getByRole('link', { name: 'Apply' })
      .or(page.getByRole('link', { name: /Record the application/ }))
      .first()
      .tap();
    await choose('North 4');
    await choose('soil drench');
    await record();
    // When it began is nobody's guess: it is asked for, and one touch says it.
    await page.getByText('Choose Begun first.').waitFor();
    await page.getByRole('group', { name: 'Begun' }).getByRole('button', { name: 'now' }).tap();
    await record();
    await page.getByRole('button', { name: 'Something else…' }).tap();
    await page.getByRole('link', { name: 'Close', exact: true }).tap();
    await page.getByRole('button', { name: '10 gal' }).tap();
    await record();
    const closed = await until(async () => (await about(op.ids.aerating, 'batch.closed'))[0]);
    expect(closed.data).toMatchObject({ remainingVolume: { value: 10, unit: '[gal_us]' } });
    await page.getByText('closed', { exact: true }).waitFor();
    expect(await page.getByText(/gal in the tank/).count()).toBe(0);
    const added = await about(op.ids.aerating, 'batch.ingredientAdded');
    // House tea asks for 7 lb and 2 lb in 300 gal: 280 gal take 6.53 lb and 1.87 lb.
    expect(added.map(({ data }) => data['quantity'])).toEqual([
      { value: 6.53, unit: '[lb_av]' },
      { value: 1.87, unit: '[lb_av]' },
    ]);
    expect(added.map(({ data }) => data['lotId'])).toEqual([op.ids.worm1, op.ids.kelp1]);
    expect(added.every(({ performedBy }) => performedBy === op.ids.tobin)).toBe(true);
    const answer = await service.get(
      `/api/v1/operations/${op.operationId}/batches/${op.ids.aerating}`,
      op.tokens.manager,
    );
    expect(answer.json.phase).toBe('closed');
    expect(answer.json.facts.volume.unaccountedL).toBeCloseTo(0, 6);
    expect(answer.json.facts.draws[0].applicationId).not.toBeNull();
    expect(phone.complaints).toEqual([]);
  }, 120_000);

  it('“same as last” opens and fills the next batch with one touch and lists what to weigh', async () => {
    const { page } = phone;
    await op.write('batch.closed', 1, { batchId: op.ids.holding });
    await phone.signIn(service.url, op);
    await page.getByRole('link', { name: /Tote 1/ }).tap();
    await page.getByRole('button', { name: /Same as T-30/ }).tap();
    await page.getByText('Weigh out').waitFor();
    await page.getByText('6.53 lb').waitFor();
    // Another fill of as much is in the log already: it is this batch's that is waited for.
    const opened = await until(async () =>
      (await log()).find(({ type, data }) => type === 'batch.opened' && data['code'] === 'T-33'),
    );
    expect(opened.data).toMatchObject({ vesselId: op.ids.tote1, recipeId: op.ids.house });
    const fill = await until(async () => (await about(String(opened.data['batchId']), 'batch.filled'))[0]);
    expect(fill.data).toMatchObject({ sourceId: op.ids.tap, volume: { value: 280, unit: '[gal_us]' } });
  }, 60_000);

  it('a tank with tea in it is not chosen for the next batch by itself, and says so when it is', async () => {
    const { page } = phone;
    await phone.signIn(service.url, op, '/start');
    await pick(page, 'Tote 1').waitFor();
    expect(await page.getByRole('radio', { name: /is in it/ }).count()).toBe(3);
    expect(await page.locator('input[type=radio][name]:checked').count()).toBe(1); // the recipe
    expect(await page.getByRole('button', { name: /Same as/ }).count()).toBe(0);
    await page.getByText('Choose Tank first.').waitFor();
    await pick(page, 'Tote 1').tap();
    await page.getByText('T-30 is not closed: its tea would stand in the books beside the new one.').waitFor();
    await page.getByRole('button', { name: /Same as T-30/ }).waitFor();
  }, 60_000);

  it('a new batch that was half typed when the page went is there again, until it is opened or begun anew', async () => {
    const { page } = phone;
    await phone.signIn(service.url, op, '/start');
    const back = page.getByText(/^Typed at .*, not recorded yet\./);
    const code = page.getByLabel('Batch code');
    await pick(page, 'Tote 1').tap();
    await code.fill('T-90');
    await phone.settled();
    await page.reload();
    await back.waitFor();
    expect(await code.inputValue()).toBe('T-90');
    expect(await pick(page, 'Tote 1').isChecked()).toBe(true);
    await page.getByRole('button', { name: 'Begin anew' }).tap();
    await back.waitFor({ state: 'detached' });
    expect(await code.inputValue()).not.toBe('T-90');
    expect(await pick(page, 'Tote 1').isChecked()).toBe(false);
    await pick(page, 'Tote 1').tap();
    await code.fill('T-91');
    await page.getByRole('button', { name: 'Open it, fill later' }).tap();
    await until(async () => (await log()).some(({ type, data }) => type === 'batch.opened' && data['code'] === 'T-91'));
    await phone.go('/start');
    await code.waitFor();
    expect(await code.inputValue()).not.toBe('T-91');
    expect(await back.count()).toBe(0);
  }, 60_000);

  it('a lot whose approval has ended is shown with the reason, warned of, and can be recorded all the same', async () => {
    const { page } = phone;
    await phone.signIn(service.url, op, `/tank/${op.ids.brewing}/record/ingredient`);
    await pick(page, 'FH-26-3').tap();
    await page.getByText(/its approval ended/).waitFor();
    await page.getByRole('button', { name: '1', exact: true }).tap();
    await page.getByRole('combobox', { name: /Unit/ }).selectOption('[gal_us]');
    await page.getByText('Before you do it').waitFor();
    await page.getByText(/no approval of fish hydrolysate was in force/).waitFor();
    await page.getByRole('button', { name: 'Record', exact: true }).tap();
    await until(async () =>
      (await about(op.ids.brewing, 'batch.ingredientAdded')).some(({ data }) => data['lotId'] === op.ids.fish1),
    );
  }, 60_000);

  it('a lot is picked by its material’s name in either language of the crew', async () => {
    const changes = { materialId: op.ids.worm, otherName: 'humus de lombriz' };
    const revised = { id: randomUUID(), type: 'material.revised', version: 1, occurredAt: ago(10), data: changes };
    const { json } = await service.append(op.operationId, op.tokens.manager, [revised]);
    expect(json.results[0].status).toBe('recorded');
    await phone.close();
    phone = await Phone.open({ language: 'es' });
    await phone.signIn(service.url, op, `/tank/${op.ids.brewing}/record/ingredient`);
    await pick(phone.page, 'WC-26-1 · worm compost / humus de lombriz').waitFor();
  }, 60_000);

  it('a device with another time zone shows the farm’s times and says so; the farm’s own devices say nothing', async () => {
    const said = /^Times are the farm’s: it is (\d\d:\d\d) there, and (\d\d:\d\d) on this device\.$/;
    const clock = (timeZone: string): string[] =>
      [0, 60_000].map((more) =>
        new Date(Date.now() - more).toLocaleTimeString('en-GB', { timeZone, hour: '2-digit', minute: '2-digit' }),
      );
    for (const path of ['/', `/tank/${op.ids.brewing}/record/oxygen`]) {
      await phone.close();
      phone = await Phone.open({ zone: 'Asia/Tokyo' });
      await phone.signIn(service.url, op, path);
      const [, farms, here] = said.exec(await phone.page.getByText(said).innerText()) ?? [];
      expect(clock('America/New_York')).toContain(farms);
      expect(clock('Asia/Tokyo')).toContain(here);
      await phone.close();
      phone = await Phone.open({ zone: 'America/New_York' });
      await phone.signIn(service.url, op, path);
      await phone.settled();
      expect(await phone.page.getByText(said).count()).toBe(0);
    }
  }, 90_000);

  it('an ingredient is counted in a bucket that the farm has weighed', async () => {
    const measureId = randomUUID();
    const record = {
      id: randomUUID(),
      type: 'measure.registered',
      version: 1,
      occurredAt: '2026-04-01T08:00:00-05:00',
    };
    const data = { measureId, name: 'green bucket', equals: { value: 14.5, unit: '[lb_av]' }, weighedOn: '2026-04-01' };
    const { json } = await service.append(op.operationId, op.tokens.manager, [{ ...record, data }]);
    expect(json.results[0].status).toBe('recorded');
    const { page } = phone;
    await phone.signIn(service.url, op, `/tank/${op.ids.brewing}/record/ingredient`);
    await page.getByRole('combobox', { name: /Unit/ }).selectOption({ label: 'green bucket' });
    await page.getByRole('button', { name: '2', exact: true }).tap();
    await page.getByRole('button', { name: 'Record', exact: true }).tap();
    await page
      .getByText(/2 × green bucket/)
      .first()
      .waitFor();
    await until(async () =>
      (await about(op.ids.brewing, 'batch.ingredientAdded')).some(
        ({ data: { quantity } }) =>
          JSON.stringify(quantity) === JSON.stringify({ measureId, unit: '{measure}', value: 2 }),
      ),
    );
  }, 60_000);

  it('a reading that water cannot hold is asked about once and then kept as written', async () => {
    const { page } = phone;
    await phone.signIn(service.url, op, `/tank/${op.ids.brewing}/record/oxygen`);
    for (const key of ['1', '4', 'decimal point', '8'])
      await page.getByRole('button', { name: key, exact: true }).tap();
    await page.getByRole('textbox', { name: /Temperature/ }).tap();
    for (const key of ['6', '6']) await page.getByRole('button', { name: key, exact: true }).tap();
    await page.getByRole('button', { name: 'Record', exact: true }).tap();
    // Benson and Krause: water at 66 °F (18.9 °C) at sea level holds 9.3 mg/L.
    await page.getByText('14.8 mg/L is above what water at 66 °F holds (9.3 mg/L). Keep it?').waitFor();
    await page.getByRole('button', { name: 'Keep it, record' }).tap();
    const reading = await until(async () => (await about(op.ids.brewing, 'batch.oxygenMeasured'))[2]);
    expect(reading.data['dissolvedOxygen']).toEqual({ value: 14.8, unit: 'mg/L' });
  }, 60_000);

  it('more than the tank takes to the rim is asked about once and then kept as written', async () => {
    const { page } = phone;
    await phone.signIn(service.url, op, `/tank/${op.ids.aerating}/record/fill`);
    for (const key of ['3', '0', '0']) await page.getByRole('button', { name: key, exact: true }).tap();
    await page.getByRole('button', { name: 'Record', exact: true }).tap();
    // 280 gal are in it; Cone 500 takes 480 gal.
    await page.getByText('Cone 500 would hold 580 gal; to the rim it takes 480 gal. Keep it?').waitFor();
    await page.getByRole('button', { name: 'Keep it, record' }).tap();
    await until(async () => (await about(op.ids.aerating, 'batch.filled'))[1]);
  }, 60_000);

  it('more tea than is there is asked about before it is drawn', async () => {
    const { page } = phone;
    await phone.signIn(service.url, op, `/tank/${op.ids.holding}/record/draw`);
    for (const key of ['2', '8', '0', '0']) await page.getByRole('button', { name: key, exact: true }).tap();
    await page.getByRole('button', { name: 'Record', exact: true }).tap();
    await page.getByText('2800 gal is more than the 280 gal that are in the tank by the books. Keep it?').waitFor();
    await page.getByRole('button', { name: 'Erase the last digit' }).tap();
    await page.getByRole('button', { name: 'Record', exact: true }).tap();
    const [drawn] = await until(async () => {
      const all = await about(op.ids.holding, 'batch.drawn');
      return all.length > 0 && all;
    });
    expect(drawn?.data['volume']).toEqual({ value: 280, unit: '[gal_us]' });
  }, 60_000);

  it('a look that says nothing is no look, and a time that lies ahead is asked about', async () => {
    const { page } = phone;
    await phone.signIn(service.url, op, `/tank/${op.ids.brewing}/record/look`);
    const record = page.getByRole('button', { name: 'Record', exact: true });
    await record.tap();
    await page.getByText('Say or photograph at least one thing first.').waitFor();
    await pick(page, 'earthy').tap();
    await page.getByRole('button', { name: 'another time' }).tap();
    const onTheFarm = (hoursAhead: number): string =>
      new Intl.DateTimeFormat('sv-SE', {
        ...{ timeZone: 'America/New_York', dateStyle: 'short', timeStyle: 'short' },
      })
        .format(Date.now() + hoursAhead * 3_600_000)
        .replace(' ', 'T');
    await page.getByLabel('another time').last().fill(onTheFarm(30));
    await record.tap();
    await page.getByText('The time lies more than a day ahead. Correct it, or the clock of this phone.').waitFor();
    await page.getByLabel('another time').last().fill(onTheFarm(3));
    await record.tap();
    await page.getByText(/The time lies (2 h 59|3 h 00) ahead of now\. Keep it\?/).waitFor();
    expect(await about(op.ids.brewing, 'batch.checked')).toEqual([]);
    await page.getByRole('button', { name: 'now', exact: true }).tap();
    await record.tap();
    const look = await until(async () => (await about(op.ids.brewing, 'batch.checked'))[0]);
    expect(look.data).toEqual({ batchId: op.ids.brewing, odour: 'earthy' });
  }, 60_000);

  it('a wrong time, a wrong tank and a wrong person are put right with one touch each; the original stays', async () => {
    const { page } = phone;
    await phone.signIn(service.url, op, `/tank/${op.ids.brewing}`);
    const line = page.getByRole('button', { name: /Oxygen 7.1 mg\/L/ });
    await line.tap();
    await page.getByRole('button', { name: '15 min earlier' }).tap();
    const [amended] = await until(async () => {
      const all = (await log()).filter(({ type }) => type === 'record.amended');
      return all.length === 1 && all;
    });
    const original = (await about(op.ids.brewing, 'batch.oxygenMeasured'))[1];
    expect(amended?.data['recordId']).toBe(original?.id);
    expect(Date.parse(String(amended?.data['occurredAt']))).toBe(
      Math.floor(Date.parse(original?.occurredAt ?? '') / 1000) * 1000 - 15 * 60_000,
    );
    await page.getByRole('button', { name: /Oxygen 7.1 mg\/L.*amended/ }).tap();
    await page.getByRole('button', { name: /It was Cone 500/ }).tap();
    await page.getByRole('button', { name: /Oxygen 7.1 mg\/L/ }).waitFor({ state: 'hidden' });
    await page.goto(`${service.url}/tank/${op.ids.aerating}`);
    await page.getByRole('button', { name: /Oxygen 7.1 mg\/L.*amended/ }).tap();
    await page.getByRole('button', { name: 'IH did it' }).tap();
    const last = await until(async () =>
      (await log()).find((each) => each.type === 'record.amended' && each.data['reason'] === 'somebody else did it'),
    );
    expect(last.data).toMatchObject({ recordId: original?.id, performedBy: op.ids.ines });
    await page.getByRole('button', { name: /Oxygen 7.1 mg\/L.*IH.*amended/ }).waitFor();
  }, 60_000);

  it('a form that was half typed when the page went is there again with its time, until it is recorded or begun anew', async () => {
    const { page } = phone;
    const address = `/tank/${op.ids.brewing}/record/oxygen`;
    await phone.signIn(service.url, op, address);
    const figure = page.getByRole('textbox', { name: /oxygen/i });
    const back = page.getByText(/Typed at .*, not recorded yet\. The time is set to/);
    await figure.waitFor();
    expect(await back.count()).toBe(0);
    for (const key of ['6', 'decimal point', '4']) await page.getByRole('button', { name: key, exact: true }).tap();
    const typedAt = Date.now();
    await phone.settled();
    await page.reload();
    await back.waitFor();
    expect(await figure.inputValue()).toBe('6.4');
    // Not under another form or another tank.
    await phone.go(`/tank/${op.ids.holding}/record/oxygen`);
    await figure.waitFor();
    expect([await back.count(), await figure.inputValue()]).toEqual([0, '']);
    await phone.go(address);
    // As if it had lain for 90 minutes: 'now' is the time that it was.
    await phone.settled();
    await page.evaluate(lain(90 * 60_000));
    await page.reload();
    await back.waitFor();
    await page.getByRole('button', { name: 'Record', exact: true }).tap();
    const reading = await until(async () => (await about(op.ids.brewing, 'batch.oxygenMeasured')).find(says(6.4)));
    expect(Math.abs(Date.parse(reading.occurredAt) + 90 * 60_000 - typedAt)).toBeLessThan(60_000);
    // Recorded: forgotten.
    await phone.go(address);
    await figure.waitFor();
    expect([await back.count(), await figure.inputValue()]).toEqual([0, '']);
    // Begun anew: forgotten, too, and the time is now again.
    await page.getByRole('button', { name: '9', exact: true }).tap();
    await phone.settled();
    await page.reload();
    await back.waitFor();
    await page.getByRole('button', { name: 'Begin anew' }).tap();
    await back.waitFor({ state: 'detached' });
    expect(await figure.inputValue()).toBe('');
    expect(await page.getByRole('button', { name: 'now', exact: true }).getAttribute('aria-pressed')).toBe('true');
    // After a day nobody means it any more.
    await page.getByRole('button', { name: '9', exact: true }).tap();
    await phone.settled();
    await page.evaluate(lain(25 * 3_600_000));
    await page.reload();
    await figure.waitFor();
    expect([await back.count(), await figure.inputValue()]).toEqual([0, '']);
    expect(phone.complaints).toEqual([]);
  }, 60_000);
});

const says =
  (mgPerL: number) =>
  ({ data }: Entry): boolean =>
    JSON.stringify(data['dissolvedOxygen']) === JSON.stringify({ unit: 'mg/L', value: mgPerL });

/** Makes what the device keeps of forms that were begun older by so many ms. */
const lain = (ms: number): string => `new Promise((done, failed) => {
  const opening = indexedDB.open('furrowmark');
  opening.onerror = failed;
  opening.onsuccess = () => {
    const transaction = opening.result.transaction('unfinished', 'readwrite');
    const store = transaction.objectStore('unfinished');
    store.getAll().onsuccess = ({ target }) => {
      for (const each of target.result) store.put({ ...each, keptAt: each.keptAt - ${String(ms)} });
    };
    transaction.oncomplete = () => { opening.result.close(); done(true); };
  };
})`;
