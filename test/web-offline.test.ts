import { randomUUID } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import { TestService } from './support/service.ts';
import { builtApp, Phone } from './web/browser.ts';
import { farm, type Farm } from './web/farm.ts';

let service: TestService;
let op: Farm;
const phones: Phone[] = [];
/** By so much the service's clock differs from the phones', ms. */
let shift = 0;
beforeAll(async () => {
  await builtApp();
  service = await TestService.start({ clock: { now: () => Date.now() + shift } });
}, 120_000);
beforeEach(async () => {
  op = await farm(service);
}, 60_000);
afterEach(async () => {
  for (const phone of phones.splice(0)) await phone.close();
}, 30_000);
afterAll(() => service.close(), 30_000);

async function phone(...looks: Parameters<typeof Phone.kept>): Promise<Phone> {
  const opened = await Phone.kept(...looks);
  phones.push(opened);
  return opened;
}

interface Entry {
  readonly id: string;
  readonly type: string;
  readonly occurredAt: string;
  readonly enteredAt?: string;
  readonly data: Readonly<Record<string, unknown>>;
}
async function readings(batchId = op.ids.brewing): Promise<readonly Entry[]> {
  const answer = await service.get(
    `/api/v1/operations/${op.operationId}/records?limit=1000&type=batch.oxygenMeasured`,
    op.tokens.manager,
  );
  const records: readonly Entry[] = answer.json.records;
  return records.filter(({ data }) => data['batchId'] === batchId);
}
const values = (all: readonly Entry[]): readonly unknown[] =>
  all.map(({ data }) => Reflect.get(Object(data['dissolvedOxygen']), 'value'));

async function until<T>(look: () => Promise<T | undefined | null | false>, patience = 40_000): Promise<T> {
  const end = Date.now() + patience;
  for (;;) {
    const found = await look();
    if (found !== undefined && found !== null && found !== false) return found;
    if (Date.now() > end) throw new Error('waited in vain');
    await new Promise((done) => setTimeout(done, 200));
  }
}

/** Records an oxygen reading by the keys. */
async function reading({ page }: Phone, value: string): Promise<void> {
  await page
    .getByRole('link', { name: /^Oxygen$|Record oxygen/ })
    .first()
    .tap();
  for (const key of value)
    await page.getByRole('button', { name: key === '.' ? 'decimal point' : key, exact: true }).tap();
  await page.getByRole('button', { name: 'Record', exact: true }).tap();
  await page.getByText('Recorded here').waitFor();
}

describe('without reception', () => {
  it('records wait on the phone through a closed browser, and each is recorded once when reception returns', async () => {
    let ines = await phone();
    await ines.signIn(service.url, op, `/tank/${op.ids.brewing}`);
    await ines.context.setOffline(true);
    await reading(ines, '7.4');
    await reading(ines, '7.3');
    await ines.page.getByRole('button', { name: /Oxygen 7.3 mg\/L.*waits/ }).waitFor();
    await ines.page.getByRole('link', { name: /2 waiting for reception/ }).waitFor();

    // The browser is closed with a full queue and opened again where there is still no reception.
    phones.splice(phones.indexOf(ines), 1);
    ines = await ines.restarted();
    phones.push(ines);
    await ines.context.setOffline(true);
    await ines.page.goto(`${service.url}/tank/${op.ids.brewing}`);
    await ines.page.getByRole('button', { name: /Oxygen 7.4 mg\/L.*waits/ }).waitFor();
    await ines.page.getByRole('link', { name: /2 waiting for reception/ }).tap();
    await ines.page.getByText('Kept on this phone and sent by itself when there is reception').waitFor();
    expect(values(await readings())).toEqual([7.8, 7.1]);

    await ines.context.setOffline(false);
    await until(async () => (await readings()).length === 4);
    await ines.page.getByText('Nothing waits here.').waitFor();
    // In the order in which they were entered, each once, and not late: they were typed on the spot.
    const all = await readings();
    expect(values(all)).toEqual([7.8, 7.1, 7.4, 7.3]);
    for (const { occurredAt, enteredAt } of all.slice(2)) {
      expect(Math.abs(Date.parse(enteredAt ?? '') - Date.parse(occurredAt))).toBeLessThan(30_000);
    }
    expect(ines.complaints).toEqual([]);
  }, 120_000);

  it('an answer that is lost on its way back does not record twice', async () => {
    const ines = await phone();
    await ines.signIn(service.url, op, `/tank/${op.ids.brewing}`);
    let lost = 0;
    // The service gets the record; its answer never reaches the phone.
    await ines.context.route('**/api/v1/operations/*/records', async (route) => {
      if (route.request().method() !== 'POST' || lost > 0) return route.continue();
      lost += 1;
      await route.fetch();
      return route.abort('connectionreset');
    });
    await reading(ines, '6.9');
    await until(async () => (await ines.page.getByRole('link', { name: /All recorded/ }).count()) === 1);
    expect(lost).toBe(1);
    expect(values(await readings())).toEqual([7.8, 7.1, 6.9]);
  }, 90_000);

  it('two phones on one batch, both without reception, end with the same picture', async () => {
    const [ines, tobin] = [await phone(), await phone()];
    for (const each of [ines, tobin]) {
      await each.signIn(service.url, op, `/tank/${op.ids.brewing}`);
      await each.context.setOffline(true);
    }
    await reading(ines, '7.2');
    await reading(tobin, '6.8');
    await tobin.context.setOffline(false);
    await until(async () => (await readings()).length === 3);
    await ines.context.setOffline(false);
    await until(async () => (await readings()).length === 4);
    for (const { page } of [ines, tobin]) {
      await page.reload();
      await page.getByRole('button', { name: /Oxygen 7.2 mg\/L recorded/ }).waitFor();
      await page.getByRole('button', { name: /Oxygen 6.8 mg\/L recorded/ }).waitFor();
    }
    const shown = await Promise.all([ines, tobin].map(({ page }) => page.locator('.recent-what').allTextContents()));
    expect(shown[0]).toEqual(shown[1]);
  }, 120_000);

  it('what the rules say before it is done is said without reception too', async () => {
    const ines = await phone();
    await ines.signIn(service.url, op, `/tank/${op.ids.holding}/record/apply`);
    await ines.context.setOffline(true);
    const pick = (name: string) =>
      ines.page.getByRole('radio', { name }).or(ines.page.getByRole('checkbox', { name })).first().tap();
    await pick('South 1');
    await ines.page.getByRole('button', { name: /all that is left/ }).tap();
    await pick('on the leaves');
    await pick('present');
    await ines.page.getByRole('group', { name: 'Begun' }).getByRole('button', { name: '−30 min' }).tap();
    // The tea went without air three hours ago, with the last check 45 minutes old; the lettuce is the matter here.
    await pick('IH');
    await ines.page.getByText('Before you do it').waitFor();
    await ines.page.getByRole('button', { name: 'Record', exact: true }).tap();
    await ines.page.getByRole('link', { name: /1 waiting for reception/ }).waitFor();
  }, 90_000);
});

describe('the first visit on one bar of reception', () => {
  it('the tanks work from the kit alone; the past follows when it can', async () => {
    const ines = await phone();
    let past = false;
    await ines.context.route('**/records?*', (route) => (past ? route.continue() : route.abort('timedout')));
    await ines.signIn(service.url, op);
    await ines.page.getByRole('link', { name: /Tote 2/ }).tap();
    await reading(ines, '7.2');
    await until(async () => (await readings()).length === 3);
    await ines.page.goto(`${service.url}/batches`);
    await ines.page.getByText('Older records are still on their way to this phone.').waitFor();
    expect(await ines.page.getByRole('link', { name: /T-29/ }).count()).toBe(0);
    past = true;
    await ines.page.reload();
    await ines.page.getByRole('link', { name: /T-29/ }).waitFor();
    await ines.page.getByText('Older records are still on their way to this phone.').waitFor({ state: 'hidden' });
  }, 90_000);

  it('a batch of the past is not called missing while it is on its way, only where it cannot come', async () => {
    const ines = await phone();
    let come = (): void => undefined;
    const coming = new Promise<void>((go) => (come = go));
    await ines.context.route('**/records?*', async (route) => {
      await coming;
      await route.continue();
    });
    const kit = ines.page.waitForResponse(/\/kit$/);
    await ines.page.goto(
      `${service.url}/batch/${op.ids.finished}#token=${op.tokens.recorder}&operation=${op.operationId}`,
    );
    await kit;
    // Time enough to fold the season from it.
    await ines.page.waitForTimeout(3_000);
    expect(await ines.page.getByText('This batch is not on this phone.').count()).toBe(0);
    come();
    await ines.page.getByRole('heading', { name: /T-29/ }).waitFor();

    const tobin = await phone();
    await tobin.context.route('**/records?*', (route) => route.abort('timedout'));
    await tobin.signIn(service.url, op, `/batch/${op.ids.finished}`);
    await tobin.page.getByRole('heading', { name: 'This batch is not on this phone.' }).waitFor();
  }, 90_000);
});

describe('a token that has ended', () => {
  it('never touches the queue: it waits, can be saved as a file, and goes out with the next token', async () => {
    const ines = await phone();
    const { page } = ines;
    await ines.signIn(service.url, op, `/tank/${op.ids.brewing}`);
    await ines.context.setOffline(true);
    await reading(ines, '7.0');
    await page.evaluate(`(() => {
      const kept = JSON.parse(localStorage.getItem('furrowmark.session'));
      localStorage.setItem('furrowmark.session', JSON.stringify({ ...kept, token: 'fmt_ended' }));
    })()`);
    // Still without reception: the page must come up with the ended token before anything can go out with the old one.
    await page.reload();
    await ines.context.setOffline(false);
    await page.getByRole('link', { name: /Sign-in has ended · 1 waits here/ }).tap();
    const download = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Save them as a file' }).tap();
    const lines = readFileSync(await (await download).path(), 'utf8')
      .trim()
      .split('\n');
    expect(lines.map((line): unknown => JSON.parse(line).data.dissolvedOxygen.value)).toEqual([7]);
    expect(values(await readings())).toEqual([7.8, 7.1]);
    await page.getByText('I have a token or a link').tap();
    await page.getByLabel('Token or link').fill(op.tokens.recorder);
    await page.getByRole('button', { name: 'Use this token' }).tap();
    await until(async () => (await readings()).length === 3);
    await page.getByText('Nothing waits here.').waitFor();
  }, 90_000);
});

describe('a record that the service will not have', () => {
  it('stays in view with the reason until a person lets it go', async () => {
    const ines = await phone();
    const { page } = ines;
    await ines.signIn(service.url, op, `/tank/${op.ids.brewing}`);
    // A manager's reading, amended by a recorder who knows the record: not permitted.
    const answer = await service.append(op.operationId, op.tokens.manager, [
      {
        ...{ id: '01976f00-0000-7000-8000-00000000ab01', type: 'batch.oxygenMeasured', version: 1 },
        occurredAt: new Date(Date.now() - 60_000).toISOString(),
        data: { batchId: op.ids.brewing, dissolvedOxygen: { value: 6.6, unit: 'mg/L' } },
      },
    ]);
    expect(answer.json.results[0].status).toBe('recorded');
    await page.reload();
    await page.getByRole('button', { name: /Oxygen 6.6 mg\/L/ }).tap();
    await page.getByRole('button', { name: '5 min earlier', exact: true }).tap();
    await page.getByRole('link', { name: /1 was not taken/ }).tap();
    await page.getByRole('heading', { name: 'Not taken' }).waitFor();
    await page.reload();
    await page.getByRole('heading', { name: 'Not taken' }).waitFor();
    await page.getByRole('button', { name: 'Let it go' }).tap();
    await page.getByRole('button', { name: 'Yes, let it go' }).tap();
    await page.getByText('Nothing waits here.').waitFor();
  }, 90_000);
});

describe('a person who is erased', () => {
  // 7 CFR 205.103(b)(3): records are kept for not less than five years beyond their creation.
  const fiveYears = 5 * 366 * 86_400_000;
  const kept = async ({ page }: Phone): Promise<string> =>
    String(
      await page.evaluate(`new Promise((done, failed) => {
        const opening = indexedDB.open('furrowmark');
        opening.onerror = () => failed(opening.error);
        opening.onsuccess = () => {
          const all = opening.result.transaction('entries').objectStore('entries').getAll();
          all.onsuccess = () => {
            opening.result.close();
            done(JSON.stringify(all.result));
          };
        };
      })`),
    );

  it('goes from the phones that had the name, at their next reception', async () => {
    shift = -fiveYears;
    const old = await service.operation();
    const personId = randomUUID();
    const entry = (type: string, data: object) => ({
      ...{ id: randomUUID(), type, version: 1, occurredAt: new Date(Date.now() + shift).toISOString(), data },
    });
    const registered = entry('person.registered', { personId, personal: { name: 'Tomas Ferrant' } });
    const corrected = entry('record.amended', {
      ...{ recordId: registered.id, type: 'person.registered', version: 1, reason: 'spelt wrong' },
      data: { personId, personal: { name: 'Tomas Ferrante' } },
    });
    const revised = entry('person.revised', { personId, personal: { name: 'Tomas Ferrant', title: 'foreman' } });
    const append = async (records: readonly object[]): Promise<void> => {
      const { json } = await service.append(old.operationId, old.tokens.manager, records);
      expect(json.results.filter(({ status }: { status: string }) => status !== 'recorded')).toEqual([]);
    };
    await append([registered, corrected, revised]);
    shift = 0;
    const ines = await phone();
    await ines.signIn(service.url, { ...op, ...old }, '/setup');
    await until(async () => (await kept(ines)).includes('Tomas Ferrant'));
    await ines.page.getByText('Tomas Ferrant').first().waitFor();

    await append([entry('person.erased', { personId, reason: 'asked for it' })]);
    await ines.page.reload();
    await until(async () => (await kept(ines)).includes('person.erased'));
    expect(await kept(ines)).not.toContain('Tomas');
    await ines.page.getByText(personId.slice(0, 8)).first().waitFor();
    expect(await ines.page.getByText('Tomas Ferrant').count()).toBe(0);
    expect(ines.complaints).toEqual([]);
  }, 120_000);
});
