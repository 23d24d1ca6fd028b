import { afterAll, afterEach, beforeAll, describe, expect, it } from '@jest/globals';
import type { Locator } from 'playwright-core';
import { builtApp, closeBrowser, heading, Phone, type Looks } from './web/browser.ts';
import { overflow, tooSmall, violations } from './web/looks.ts';
import { seasonService, type Data, type SeasonService } from './web/season.ts';

let farm: SeasonService;
let phone: Phone;
beforeAll(async () => {
  await builtApp();
  farm = await seasonService();
}, 180_000);
afterEach(() => phone.close(), 30_000);
afterAll(async () => {
  await closeBrowser();
  await farm.service.close();
}, 30_000);

const written: SeasonService['written'] = (type, fits) => farm.written(type, fits);

/** The outline of a field's record, longitude first. */
function outlineOf(data: Data): readonly (readonly number[])[] {
  const { coordinates }: { readonly coordinates?: readonly (readonly (readonly number[])[])[] } = Object(
    data['boundary'],
  );
  return coordinates?.[0] ?? [];
}

/** The form for a new field, opened. */
async function registering(looks: Looks, register = 'Register a field'): Promise<Locator> {
  phone = await Phone.open(looks);
  const { page } = phone;
  await page.goto(`${farm.url}/fields#token=${farm.tokens.manager}&operation=${farm.operationId}`);
  await page.locator(heading).first().waitFor();
  await page.getByText(register).click();
  return page.getByRole('application');
}

/** Metres that one px stands for, by the scale that is drawn. */
async function metresPerPx(ground: Locator): Promise<number> {
  const scale = ground.locator('.scale');
  const metres = Number.parseFloat((await scale.locator('text').textContent()) ?? '');
  const px = /h([\d.]+)v/.exec((await scale.locator('path').getAttribute('d')) ?? '')?.[1];
  return metres / Number(px);
}

const corner = (n: number, of: number) =>
  phone.page.getByRole('button', { name: `Corner ${String(n)} of ${String(of)}` });

describe.each<Looks>([{ size: [390, 844] }, { size: [1280, 900] }])('a boundary drawn by touch, %j', (looks) => {
  it('is to scale: of a rectangle of 150 by 100 px the area is told, taken, recorded, and drawn on the map', async () => {
    const ground = await registering(looks);
    const { page } = phone;
    const code = `Drawn at ${String(looks.size?.[0])}`;
    await page.getByLabel('What it is called').fill(code);
    await ground.scrollIntoViewIfNeeded();
    const box = await ground.boundingBox();
    const [left, top] = [(box?.x ?? 0) + 80, (box?.y ?? 0) + 60];
    const touches = [[0, 100], [150, 100], [150, 0], [0, 0]] as const; // prettier-ignore
    for (const [n, [x, y]] of touches.entries()) {
      await page.touchscreen.tap(left + x, top + y);
      await corner(n + 1, n + 1).waitFor();
    }
    // Acre: 4,046.873 m² (NIST Handbook 44, Appendix C).
    const acres = (150 * 100 * (await metresPerPx(ground)) ** 2) / 4046.873;
    const said = await page.getByText(/It encloses [\d.]+ ac/).innerText();
    expect(Number(/encloses ([\d.]+) ac/.exec(said)?.[1]) / acres).toBeCloseTo(1, 1.7);
    await page.getByRole('button', { name: /^Take .* ac as the area$/ }).tap();
    expect(Number(await page.getByLabel('Area', { exact: true }).inputValue()) / acres).toBeCloseTo(1, 1.7);
    expect(await violations(page)).toEqual([]);
    expect([await overflow(page), ...(await tooSmall(page))]).toEqual([0]);
    await page.getByRole('button', { name: 'Record', exact: true }).tap();
    const outline = outlineOf(await written('field.registered', (data) => data['code'] === code));
    expect(outline).toHaveLength(5);
    expect(outline[4]).toEqual(outline[0]);
    // The first corner is the south-western one.
    expect(outline[0]?.[0]).toBeLessThan(outline[1]?.[0] ?? NaN);
    expect(outline[0]?.[1]).toBeLessThan(outline[2]?.[1] ?? NaN);
    await page.getByRole('link', { name: `${code}, organic` }).waitFor();
    expect(phone.complaints).toEqual([]);
  }, 60_000);
});

describe('a corner', () => {
  it('that was put wrongly is pulled or touched to where it belongs, taken out, undone; crossing lines are told and asked about', async () => {
    const ground = await registering({ size: [390, 844] });
    const { page } = phone;
    /** A point of the picture, wherever the page was scrolled to. */
    const at = async (x: number, y: number): Promise<[number, number]> => {
      await ground.scrollIntoViewIfNeeded();
      const box = await ground.boundingBox();
      return [(box?.x ?? 0) + x, (box?.y ?? 0) + y];
    };
    // In the order of an hourglass.
    for (const [x, y] of [[60, 60], [200, 160], [200, 60], [60, 160]] as const) await page.touchscreen.tap(...(await at(x, y))); // prettier-ignore
    await page.getByText(/The boundary crosses itself here/).waitFor();
    await page.getByLabel('What it is called').fill('Hourglass');
    await page.getByLabel('Area', { exact: true }).fill('1');
    await page.getByRole('button', { name: 'Record', exact: true }).tap();
    await page.getByText(/The outline crosses itself, .* Keep it\?/).waitFor();
    // The second is pulled to where the third stands, the third touched to where the second stood.
    await page.mouse.move(...(await at(200, 160)));
    await page.mouse.down();
    await page.mouse.move(...(await at(230, 100)), { steps: 4 });
    await page.mouse.move(...(await at(200, 40)), { steps: 4 });
    await page.mouse.up();
    await corner(3, 4).tap();
    await page.getByText('Corner 3 is chosen').waitFor();
    await page.touchscreen.tap(...(await at(200, 180)));
    await page.getByText(/It encloses/).waitFor();
    expect(await page.getByText(/crosses itself here/).count()).toBe(0);
    const area = await page.getByText(/It encloses/).innerText();
    await page.getByRole('button', { name: 'Take it out' }).tap();
    await corner(3, 3).waitFor();
    await page.getByRole('button', { name: 'Undo', exact: true }).tap();
    await corner(4, 4).waitFor();
    expect(await page.getByText(/It encloses/).innerText()).toBe(area);
    await corner(4, 4).tap();
    await page.getByRole('button', { name: 'Begin anew' }).tap();
    expect(await page.getByRole('button', { name: /^Corner \d of/ }).count()).toBe(0);
    await page.touchscreen.tap(...(await at(60, 60)));
    await corner(1, 1).waitFor();
    expect(phone.complaints).toEqual([]);
  }, 60_000);

  it('is put, moved and taken out by keys alone', async () => {
    const ground = await registering({ size: [1280, 900] });
    const { page } = phone;
    const press = async (...keys: readonly string[]): Promise<void> => {
      for (const key of keys) await page.keyboard.press(key);
    };
    const perPx = await metresPerPx(ground);
    await ground.focus();
    await press('Enter', ...Array<string>(8).fill('ArrowRight'), 'Enter', ...Array<string>(6).fill('ArrowUp'), 'Enter');
    await corner(3, 3).waitFor();
    // Half of 80 by 60 px.
    const said = page.getByText(/It encloses/);
    const acres = (squarePx: number): number => (squarePx * perPx ** 2) / 4046.873;
    const told = async (): Promise<number> => Number(/encloses ([\d.]+) ac/.exec(await said.innerText())?.[1]);
    expect((await told()) / acres(2400)).toBeCloseTo(1, 1.7);
    // The third 20 px farther north: half of 80 by 80.
    await corner(3, 3).focus();
    await press('ArrowUp', 'ArrowUp');
    expect((await told()) / acres(3200)).toBeCloseTo(1, 1.7);
    await ground.focus();
    await press('Backspace', 'Backspace');
    expect((await told()) / acres(2400)).toBeCloseTo(1, 1.7);
    await corner(1, 3).focus();
    await press('Delete');
    await corner(2, 2).waitFor();
    await page.getByText('An outline has three corners at least.').waitFor();
    expect(await violations(page)).toEqual([]);
    expect(phone.complaints).toEqual([]);
  }, 60_000);
});

describe('a boundary walked with the phone', () => {
  it('has its corners where the person stood; one that is known badly is said to be', async () => {
    await registering({ size: [390, 844], language: 'es' }, 'Registrar un campo');
    const { page, context } = phone;
    const stand = page.getByRole('button', { name: 'Esquina donde estoy' });
    await context.clearPermissions();
    await stand.tap();
    await page.getByText('Este aparato no dice dónde está.').waitFor();
    await context.grantPermissions(['geolocation']);
    const walked = [[-74.204, 42.094], [-74.2025, 42.094], [-74.2025, 42.0955]] as const; // prettier-ignore
    for (const [n, [longitude, latitude]] of walked.entries()) {
      await context.setGeolocation({ longitude, latitude, accuracy: n === 2 ? 40 : 4 });
      await stand.tap();
      await page.getByText(`Esquina ${String(n + 1)} añadida, ${n === 2 ? 'pero con 40 m' : 'con unos 4 m'}`).waitFor();
    }
    await page.getByLabel('Cómo se llama').fill('A pie');
    await page.getByLabel('Superficie', { exact: true }).fill('2');
    await page.getByRole('button', { name: 'Anotar', exact: true }).tap();
    const outline = outlineOf(await written('field.registered', (data) => data['code'] === 'A pie'));
    expect(outline).toEqual([...walked, walked[0]]);
    expect(phone.complaints).toEqual([]);
  }, 60_000);
});

describe('a boundary of a field that is there', () => {
  it('is drawn later: a revision, and the past stays without it', async () => {
    phone = await Phone.open({ size: [1280, 900] });
    const { page } = phone;
    const fieldId = farm.id('field.registered', 'Creek', 'fieldId');
    await page.goto(`${farm.url}/field/${fieldId}#token=${farm.tokens.manager}&operation=${farm.operationId}`);
    await page.locator(heading).first().waitFor();
    await page.getByText('Correct or change').click();
    await page.getByLabel('It has changed').check();
    await page.getByText('Corners as figures').click();
    await page.getByLabel('Corners, one a line').fill('-74.21 42.09\n-74.20 42.09\n-74.20 42.10');
    await page.getByText(/It encloses/).waitFor();
    await page.getByRole('button', { name: 'Record', exact: true }).last().click();
    const revision = await written('field.revised', (data) => data['boundary'] !== undefined);
    expect(Object.keys(revision).toSorted()).toEqual(['boundary', 'fieldId']);
    expect(phone.complaints).toEqual([]);
  }, 60_000);
});
