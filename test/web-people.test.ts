import { randomUUID } from 'node:crypto';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import { TestService } from './support/service.ts';
import { until } from './support/until.ts';
import { builtApp, closeBrowser, heading, Phone, type Looks } from './web/browser.ts';
import { farm, type Farm } from './web/farm.ts';
import { overflow, tooSmall, violations } from './web/looks.ts';

const desk: Looks = { size: [1280, 900] };

let service: TestService;
let op: Farm;
let phone: Phone;
/** By so much the service's clock differs from the browser's, ms. */
let shift = 0;
beforeAll(async () => {
  await builtApp();
  service = await TestService.start({ clock: { now: () => Date.now() + shift } });
}, 180_000);
beforeEach(async () => {
  op = await farm(service);
}, 60_000);
afterEach(() => phone.close(), 30_000);
afterAll(async () => {
  await closeBrowser();
  await service.close();
}, 30_000);

type Where = Pick<Farm, 'operationId' | 'tokens'>;

async function open(
  path: string,
  looks: Looks = desk,
  role: 'manager' | 'reviewer' | 'recorder' | 'inspector' = 'manager',
  of: Where = op,
): Promise<Phone['page']> {
  phone = await Phone.open(looks);
  const { page } = phone;
  await page.goto(`${service.url}${path}#token=${of.tokens[role]}&operation=${of.operationId}`);
  await page.locator(heading).first().waitFor();
  return page;
}

interface Entry {
  readonly id: string;
  readonly type: string;
  readonly occurredAt: string;
  readonly data: Readonly<Record<string, unknown>>;
}

async function recorded(type: string, of: Where = op): Promise<readonly Entry[]> {
  const answer = await service.get(
    `/api/v1/operations/${of.operationId}/records?limit=1000&type=${type}`,
    of.tokens.manager,
  );
  return answer.json.records;
}
/** Waits for a record that the page wrote. */
const written = (type: string): Promise<Entry> => until(async () => (await recorded(type)).at(-1));
const region = (page: Phone['page'], name: string) => page.getByRole('region', { name, exact: true });

describe('a recipe', () => {
  it('out of use is not offered to brew by any more; what was brewed by it keeps it', async () => {
    const page = await open('/registers');
    const recipes = region(page, 'Recipes');
    await recipes.getByText('Take it out of use: House tea').click();
    await recipes.getByText('No new batch is brewed by it.').waitFor();
    await recipes.getByLabel('Why').fill('replaced by the spring tea');
    await recipes.getByRole('button', { name: 'Record', exact: true }).click();
    const { data } = await written('recipe.retired');
    expect(data).toEqual({ recipeId: op.ids.house, reason: 'replaced by the spring tea' });
    await recipes.getByText('out of use: replaced by the spring tea').waitFor();
    // Another edition would not bring it back.
    expect(await recipes.getByText('Its next edition').count()).toBe(0);
    await phone.go('/start');
    await phone.settled();
    expect(await page.getByRole('radio', { name: 'House tea' }).count()).toBe(0);
    expect(phone.complaints).toEqual([]);
  }, 60_000);

  it('is not taken out of use by a recorder', async () => {
    const page = await open('/registers', desk, 'recorder');
    await region(page, 'Recipes').getByText('Its next edition').first().waitFor();
    expect(await page.getByText('Take it out of use').count()).toBe(0);
  }, 60_000);
});

describe('the rest of a load that stands only in its application', () => {
  it('is carried into another tea: it counts there, and a rest greater than the load is asked about', async () => {
    const page = await open(`/batch/${op.ids.finished}`, { size: [390, 844] }, 'recorder');
    await page.getByText('Record what happened with it').tap();
    // The farm's T-29: 265 gal, drawn and applied in A-29.
    const load = page.getByLabel('Load', { exact: true });
    const label = (await load.locator('option').allInnerTexts()).find((text) => /^265 gal .* A-29$/.test(text));
    await load.selectOption({ label: label ?? 'no load of A-29' });
    await page.getByLabel('How much was left', { exact: true }).fill('300');
    await page.getByLabel('What became of it').selectOption('carriedOver');
    expect(await page.getByLabel(/^Where/).count()).toBe(0);
    const into = page.getByLabel(/^Into which tea/);
    // Not into the tank that it came from: that is put back. What is closed comes last.
    const teas = await into.locator('option').allInnerTexts();
    expect(teas.map((text) => text.split(' · ')[0])).toEqual(['–', 'T-32', 'T-31', 'T-30']);
    await page.getByRole('button', { name: 'Record', exact: true }).tap();
    await page.getByText('By the books the load did not have that much left. Keep it?').waitFor();
    await page.getByLabel('How much was left', { exact: true }).fill('25');
    await page.getByRole('button', { name: 'Keep it, record' }).tap();
    await page.getByText('Without the tea that it went into, the trace ends here. Keep it so?').waitFor();
    await into.selectOption(op.ids.aerating);
    await page.getByRole('button', { name: 'Keep it, record' }).tap();
    const { data } = await written('draw.ended');
    expect(data).toEqual({
      drawId: expect.any(String),
      ...{ volume: { value: 25, unit: '[gal_us]' }, fate: 'carriedOver', intoBatchId: op.ids.aerating },
    });
    // The service, too, knows the load by this id: a US gallon is 3.785411784 L (NIST Handbook 44, appendix C).
    const { json } = await service.get(
      `/api/v1/operations/${op.operationId}/batches/${op.ids.finished}`,
      op.tokens.manager,
    );
    expect(json.facts.draws[0].ended).toMatchObject([
      { fate: 'carriedOver', intoBatchId: op.ids.aerating, volumeL: expect.closeTo(25 * 3.785411784, 2) },
    ]);
    await phone.go(`/batch/${op.ids.aerating}`);
    await page
      .getByText(/carried over · T-32/)
      .first()
      .waitFor();
    expect(phone.complaints).toEqual([]);
  }, 90_000);

  it('is dumped or put back; only of what is dumped it is asked where', async () => {
    const page = await open(`/batch/${op.ids.finished}`);
    await page.getByText('Record what happened with it').click();
    await page.getByLabel('Load', { exact: true }).selectOption({ index: 1 });
    await page.getByLabel('How much was left', { exact: true }).fill('5');
    await page.getByLabel(/^Where/).fill('grass strip');
    expect(await page.getByLabel(/^Into which tea/).count()).toBe(0);
    // Written, then another fate chosen: it does not go along.
    await page.getByLabel('What became of it').selectOption('putBack');
    await page.getByRole('button', { name: 'Record', exact: true }).click();
    const { data } = await written('draw.ended');
    expect(Object.keys(data).sort()).toEqual(['drawId', 'fate', 'volume']);
    expect(phone.complaints).toEqual([]);
  }, 60_000);
});

describe('a person', () => {
  const change = 'Correct or change';

  it('who has another title and reads Spanish now is revised; lists and the tank show what holds now', async () => {
    const page = await open('/registers');
    const people = region(page, 'People');
    await people.getByText('Tobin Quay', { exact: true }).click();
    await people.getByText(change).click();
    await people.getByRole('button', { name: 'Record', exact: true }).click();
    await people.getByText('Nothing is written otherwise than before.').waitFor();
    await people.getByLabel('Name', { exact: true }).fill('Tobin Quay-Harrow');
    await people.getByLabel(/^Initials/).fill('TQH');
    await people.getByLabel(/^Title or task/).fill('applicator');
    await people.getByLabel('Reads').selectOption('es');
    await people.getByRole('button', { name: 'Record', exact: true }).click();
    const { data } = await written('person.revised');
    expect(data).toEqual({
      ...{ personId: op.ids.tobin, language: 'es' },
      personal: { name: 'Tobin Quay-Harrow', initials: 'TQH', title: 'applicator' },
    });
    // The log itself has none of it.
    const log = await service.get(`/api/v1/operations/${op.operationId}/log/entries?from=0&to=200`, op.tokens.manager);
    expect(log.text).not.toContain('Quay');
    await people.getByText('Tobin Quay-Harrow', { exact: true }).waitFor();
    await phone.go(`/tank/${op.ids.brewing}/record/oxygen`);
    await page.getByRole('button', { name: 'TQH', exact: true }).waitFor();
    expect(phone.complaints).toEqual([]);
  }, 60_000);

  it('of whom something is half typed does not stay on the device: what was never recorded could not be erased', async () => {
    const page = await open('/registers');
    const people = region(page, 'People');
    await people.getByText('Tobin Quay', { exact: true }).click();
    await people.getByText(change).click();
    await people.getByLabel('Name', { exact: true }).fill('Tobin Halfwritten');
    await people.getByText('Register somebody').click();
    await people.getByLabel('Name', { exact: true }).last().fill('Wren Halfwritten');
    // A form that is kept, to see that one is: a measure begun beside it.
    const measures = region(page, 'Household measures');
    await measures.getByText('Register one').click();
    await measures.getByLabel('Name', { exact: true }).fill('tin cup');
    await phone.settled();
    await page.reload();
    await page.locator(heading).first().waitFor();
    const kept = String(
      await page.evaluate(`new Promise((done, failed) => {
        const opening = indexedDB.open('furrowmark');
        opening.onerror = () => failed(opening.error);
        opening.onsuccess = async () => {
          const db = opening.result;
          const read = (name) => new Promise((got) => {
            const all = db.transaction(name).objectStore(name).getAll();
            all.onsuccess = () => got(all.result);
          });
          const stores = await Promise.all([...db.objectStoreNames].map(read));
          db.close();
          done(JSON.stringify([stores, { ...localStorage }, { ...sessionStorage }]));
        };
      })`),
    );
    expect(kept).toContain('tin cup');
    expect(kept).not.toContain('Halfwritten');
  }, 60_000);

  it('whose name was misspelt is amended, with the reason', async () => {
    const page = await open('/registers', { size: [390, 844] });
    const people = region(page, 'People');
    await people.getByText('Tobin Quay', { exact: true }).tap();
    await people.getByText(change).tap();
    await people.locator('label.chip', { hasText: 'It was written wrongly' }).tap();
    await people.getByLabel('Name', { exact: true }).fill('Tobin Quaye');
    await people.getByLabel('Reason', { exact: true }).fill('an e was missing');
    await people.getByRole('button', { name: 'Record', exact: true }).tap();
    const { data } = await written('record.amended');
    expect(data).toMatchObject({
      ...{ type: 'person.registered', reason: 'an e was missing' },
      data: { personId: op.ids.tobin, personal: { name: 'Tobin Quaye', initials: 'TQ' } },
    });
    await people.getByText('Tobin Quaye', { exact: true }).waitFor();
    expect(phone.complaints).toEqual([]);
  }, 60_000);

  it('who has left is not offered at the tank any more, and stays in the list', async () => {
    const page = await open('/registers');
    const people = region(page, 'People');
    await people.getByText('Tobin Quay', { exact: true }).click();
    await people.getByText(change).click();
    await people.locator('label.chip', { hasText: 'They have left' }).click();
    await people.getByLabel('Reason', { exact: true }).fill('end of the season');
    // Two hours ago, on the farm's clock.
    const hours = new Intl.DateTimeFormat('sv-SE', {
      ...{ timeZone: 'America/New_York', dateStyle: 'short', timeStyle: 'short' },
    });
    const leftAt = Math.floor(Date.now() / 60_000) * 60_000 - 2 * 3_600_000;
    await people.getByLabel(/^When they left/).fill(hours.format(leftAt).replace(' ', 'T'));
    await people.getByRole('button', { name: 'Record', exact: true }).click();
    const { data, occurredAt } = await written('person.retired');
    expect(Date.parse(occurredAt)).toBe(leftAt);
    expect(data).toEqual({ personId: op.ids.tobin, reason: 'end of the season' });
    await people.getByText('left: end of the season').waitFor();
    await phone.go(`/tank/${op.ids.brewing}/record/oxygen`);
    await page.getByRole('button', { name: 'IH', exact: true }).waitFor();
    expect(await page.getByRole('button', { name: 'TQ', exact: true }).count()).toBe(0);
    expect(phone.complaints).toEqual([]);
  }, 60_000);

  it.each([
    ['recorder', 1],
    ['inspector', 0],
  ] as const)(
    'is not changed or erased by a %s',
    async (role, mayTrain) => {
      const page = await open('/registers', desk, role);
      const people = region(page, 'People');
      await people.getByText('Tobin Quay', { exact: true }).click();
      await phone.settled();
      expect(await people.getByText('Record a training').count()).toBe(mayTrain);
      for (const manages of [change, 'Erase the name', 'Register somebody'])
        expect(await people.getByText(manages).count()).toBe(0);
    },
    60_000,
  );
});

describe('a person’s name', () => {
  // 7 CFR 205.103(b)(3): records are kept for not less than five years beyond their creation.
  const erase = async (page: Phone['page'], w: readonly [open: string, reason: string, next: string, yes: string]) => {
    const [opens, reason, next, yes] = w;
    await page.getByText('Tobin Quay', { exact: true }).click();
    await page.getByText(opens, { exact: true }).click();
    await page.locator('section:has(> #people)').getByLabel(reason, { exact: true }).fill('asked for it');
    await page.getByRole('button', { name: next }).click();
    await page.getByRole('button', { name: yes }).click();
  };
  const english = ['Erase the name', 'Reason', 'Go on to erase', 'Yes, erase it for good'] as const;
  const spanish = ['Borrar el nombre', 'Razón', 'Seguir para borrar', 'Sí, borrarlo para siempre'] as const;
  /** The day five years after today (UTC), the day of the farm's last record about him. */
  const earliest = (): string => {
    const until = new Date();
    until.setUTCFullYear(until.getUTCFullYear() + 5);
    return until.toISOString().slice(0, 10);
  };

  it('is not erased before its time: refused in words, with the day, and nothing waits on the device', async () => {
    const page = await open('/registers');
    await erase(page, english);
    await page.getByText(/Archives, backups, exports, printed pages and PDF files/).waitFor();
    await page.getByText(/at least five years \(7 CFR 205\.103\(b\)\(3\)\)/).waitFor();
    await page
      .getByText(
        `Nothing was erased. Records by or about this person must be kept until ${earliest()}. Erase the person after that day.`,
      )
      .waitFor();
    expect(await recorded('person.erased')).toEqual([]);
    await phone.go('/waiting');
    await page.getByText('Nothing waits here.').waitFor();
    expect(phone.complaints).toEqual([]);
  }, 60_000);

  it('is refused in Spanish, too', async () => {
    const page = await open('/registers', { size: [390, 844], language: 'es' });
    await erase(page, spanish);
    await page
      .getByText(
        `No se borró nada. Los registros de esta persona o sobre ella se guardan hasta el ${earliest()}. Bórrela después de ese día.`,
      )
      .waitFor();
    expect(phone.complaints).toEqual([]);
  }, 60_000);

  it('is not erased by one touch, nor without reception', async () => {
    const page = await open('/registers');
    await page.getByText('Tobin Quay', { exact: true }).click();
    await page.getByText(english[0], { exact: true }).click();
    await region(page, 'People').getByLabel('Reason', { exact: true }).fill('asked for it');
    await page.getByRole('button', { name: 'Go on to erase' }).click();
    await page.getByText('Erase the name of Tobin Quay for good? It cannot be undone.').waitFor();
    await page.getByRole('button', { name: 'Leave it', exact: true }).click();
    await phone.context.setOffline(true);
    await page.getByRole('button', { name: 'Go on to erase' }).click();
    await page.getByRole('button', { name: 'Yes, erase it for good' }).click();
    await page.getByText('This needs reception. Nothing was changed; try again when there is some.').waitFor();
    await phone.context.setOffline(false);
    expect(await recorded('person.erased')).toEqual([]);
  }, 60_000);

  it('is gone from the service and from this device once five years are over', async () => {
    shift = -5 * 366 * 86_400_000;
    const old = await service.operation();
    const personId = randomUUID();
    const entry = (type: string, data: object) => ({
      ...{ id: randomUUID(), type, version: 1, occurredAt: new Date(Date.now() + shift).toISOString(), data },
    });
    await service.append(old.operationId, old.tokens.manager, [
      entry('person.registered', { personId, personal: { name: 'Tobin Quay', initials: 'TQ' } }),
      entry('person.retired', { personId, reason: 'moved away' }),
    ]);
    shift = 0;
    const page = await open('/registers', desk, 'manager', old);
    await page.getByText('left: moved away').waitFor();
    await erase(page, english);
    await page.getByText('name erased: asked for it').waitFor();
    expect((await recorded('person.erased', old)).map(({ data }) => data)).toEqual([
      { personId, reason: 'asked for it' },
    ]);
    expect(JSON.stringify(await recorded('person.registered', old))).not.toContain('Quay');
    await region(page, 'People').getByText(personId.slice(0, 8), { exact: true }).waitFor();
    expect(await page.getByText('Tobin Quay').count()).toBe(0);
    // Nothing more is offered for whom nobody knows.
    expect(
      await region(page, 'People')
        .getByText(/Erase the name|Correct or change|training/)
        .count(),
    ).toBe(0);
    expect(phone.complaints).toEqual([]);
  }, 90_000);
});

describe.each<Looks>([
  { theme: 'light', language: 'en', size: [1280, 900] },
  { theme: 'dark', language: 'es', size: [390, 844] },
  { theme: 'sun', language: 'es', size: [390, 844] },
])('these forms, opened, %j', (looks) => {
  it('have no accessibility violation, no sideways scrolling, no control below 44 px', async () => {
    const page = await open('/registers', looks);
    const people = region(page, looks.language === 'es' ? 'Personas' : 'People');
    await people.waitFor();
    const opened = `for (const each of document.querySelectorAll('#people, #recipes'))
      for (const more of each.closest('section').querySelectorAll('details')) more.open = true;`;
    // What opens holds more that opens.
    for (let deep = 0; deep < 2; deep++) {
      await page.evaluate(opened);
      await phone.settled();
    }
    await people.locator('label.chip').nth(2).tap();
    await page
      .locator('label', { hasText: /^(Reason|Razón)/ })
      .last()
      .waitFor();
    expect([await violations(page), await overflow(page), await tooSmall(page)]).toEqual([[], 0, []]);
    await phone.go(`/batch/${op.ids.finished}`);
    await page.locator('h1', { hasText: 'T-29' }).waitFor();
    await page.getByText(/^(Record what happened with it|Anotar lo que pasó con esto)$/).tap();
    await page.getByLabel(/^(What became of it|Qué se hizo)/).selectOption('carriedOver');
    expect([await violations(page), await overflow(page), await tooSmall(page)]).toEqual([[], 0, []]);
    expect(phone.complaints).toEqual([]);
  }, 90_000);
});
