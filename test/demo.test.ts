import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { chromium, type Browser } from 'playwright-core';
import { startService, type RunningService } from '@furrowmark/api';
import { allFindings, findingsText, recordSeason, SeasonClock, writeSeason } from '../apps/api/src/demo/index.ts';
import { testDatabase } from './support/database.ts';

// The demo's whole way: the season of 2026 recorded through HTTP, looked at from 25 November 2026, and seen in a browser.
const golden = join(import.meta.dirname, 'golden', 'season-findings.txt');
const clock = new SeasonClock();
let service: RunningService;
let recorded: Awaited<ReturnType<typeof recordSeason>>;
let findings: Awaited<ReturnType<typeof allFindings>>;

beforeAll(async () => {
  const { dataDir, databaseUrl } = await testDatabase();
  service = await startService({ dataDir, databaseUrl, clock, log: 'error' });
  recorded = await recordSeason(service, clock, writeSeason(2026));
  clock.put('2026-11-25T12:00:00-05:00');
  findings = await allFindings(recorded.clients.inspector, recorded.operationId);
}, 120_000);
afterAll(() => service.close());

describe('the findings of the invented season', () => {
  // From the story alone (april.ts … august.ts), worked by hand:
  // T-05: air off 29 April 07:05, second load applied until 16:17: 9 h 12. Limit 8 h.
  // T-08: fed 14:01, drawn 07:50 the next day: 17 h 49. Limit 20 h.
  // T-10: air last known running 22:10, found off 05:50, on again 05:58: off for 8 min to 7 h 48.
  // T-11: 5.2 mg/L, limit 6. T-13: fed at 05:53, air on at 06:25. T-16: kelp approved until 14 June, used on 16 June.
  // HA-1: eleven brews of House tea take 0.14, 0.14, 0.21, 0.14, 0.14, 0.21, 0.14, 0.14, 0.21, 0.14, 0.14 gal before
  // T-20 takes 0.14 more: 1.89 gal out of a jug of 1.8.
  // L-1: filled on 11 May, emptied on 30 May: 19 days; limit 14. H-0624: 14 May to 24 June is 41 days; 120 asked.
  it.each([
    ['hold-maximum', 'T-05 · North 2', 'broken', 'answered', '9 h 12 min'],
    ['brew-minimum', 'T-08 · South 1', 'broken', 'answered', '17 h 49 min'],
    ['air-continuous', 'T-10', 'unknown', 'open', 'between 8 min and 7 h 48 min'],
    ['oxygen-minimum', 'T-11', 'broken', 'answered', '5.2 mg/L'],
    ['chlorine-dissipated', 'T-13', 'broken', 'answered', '0 min'],
    ['input-approved', 'KE-1', 'broken', 'open', 'T-16'],
    ['chloramine-handled', 'T-19', 'unknown', 'open', 'not measured'],
    ['lot-balance', 'HA-1', 'broken', 'answered', '0.09 gal'],
    ['input-recalled', 'FH-1', 'broken', 'open', 'T-07'],
    ['vessel-clean', 'L-1', 'broken', 'answered', '19'],
    ['topup-water', 'L-1', 'broken', 'open', '900 gal'],
    ['harvest-interval', 'H-0624', 'broken', 'open', '41 days'],
    ['equipment-clean', 'A-T-22 · Long Acre · bed 2 +2', 'broken', 'open', 'kaolin'],
    ['tank-mix', 'A-T-18 · Orchard', 'broken', 'open', 'Copper soap harms tea'],
    ['record-complete', 'T-26', 'broken', 'open', 'Not reviewed'],
    ['hold-maximum', 'T-15 · Corner', 'broken', 'resolved', '13 h 40 min'],
    ['oxygen-minimum', 'T-17', 'broken', 'resolved', '3.1 mg/L'],
  ])('%s of %s is %s and %s', (ruleId, code, outcome, state, figure) => {
    const found = findings.filter((one) => one.ruleId === ruleId && one.about.code === code);
    expect(found.map((one) => [one.outcome, one.state])).toEqual([[outcome, state]]);
    expect(found[0]?.message).toContain(figure);
  });

  it('has nothing broken or unknown in a brew that went as it should', () => {
    const uneventful = /^(T-0[1-4679]|T-12|T-14|T-2[0345]|L-2)( ·|$)/;
    const loud = findings.filter(
      (one) => one.outcome !== 'caution' && one.outcome !== 'due' && uneventful.test(one.about.code),
    );
    expect(loud).toEqual([]);
  });

  // The whole list, line by line, so that no change of a rule goes unseen. A commit that renews it explains why:
  // RENEW_GOLDEN=season npm test -- test/demo
  it('are those of the golden file', () => {
    const text = findingsText(findings);
    if (process.env['RENEW_GOLDEN'] === 'season') writeFileSync(golden, text);
    expect(text).toBe(readFileSync(golden, 'utf8'));
  });
});

describe('the page for reading', () => {
  let browser: Browser;
  beforeAll(async () => {
    const args = [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
    ];
    browser = await chromium.launch({ executablePath: process.env['CHROMIUM'] ?? '/usr/bin/chromium', args });
  }, 60_000);
  afterAll(() => browser.close());

  const open = async (width: number) => {
    const context = await browser.newContext({ viewport: { width, height: 844 } });
    const page = await context.newPage();
    const wrong: string[] = [];
    page.on('pageerror', (error) => wrong.push(error.message));
    page.on('console', (message) => (message.type() === 'error' ? wrong.push(message.text()) : undefined));
    const token = recorded.clients.inspector.token;
    await page.goto(`${service.url}/page#token=${token}&operation=${recorded.operationId}`);
    await page.locator('.batches a').first().waitFor();
    return { page, wrong, context };
  };

  it.each([390, 1280])(
    'shows a batch at %i px: clocks, verdicts in words, nothing wider than the screen',
    async (width) => {
      const { page, wrong, context } = await open(width);
      expect(await page.locator('.batches a').count()).toBe(28);
      expect(page.url()).not.toContain('token');
      const line = page.locator('.batches a', { hasText: 'T-05' });
      expect(await line.innerText()).toMatch(/Tote 2[\s\S]*brew 24 h 49 · hold 9 h 12/);
      await line.click();
      await page.locator('svg[role=img]').waitFor();
      expect(await page.locator('h1').innerText()).toBe('T-05 · Tote 2');
      const hold = page.locator('.verdicts li', { hasText: '9 h 12 min' });
      expect(await hold.innerText()).toContain('✕ outside your limit');
      expect(await hold.innerText()).toContain('common practice, no source');
      const widest = Number(await page.evaluate('document.documentElement.scrollWidth'));
      expect(widest).toBeLessThanOrEqual(width);
      expect(wrong).toEqual([]);
      await context.close();
    },
    60_000,
  );

  it('hands over the batch record as a PDF, fetched with the token', async () => {
    const { page, context } = await open(1280);
    await page.locator('.batches a', { hasText: 'T-10' }).click();
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Batch record (PDF)' }).click(),
    ]);
    expect(download.suggestedFilename()).toBe('batch-record-T-10.pdf');
    expect(
      readFileSync(await download.path())
        .subarray(0, 5)
        .toString(),
    ).toBe('%PDF-');
    await context.close();
  }, 60_000);

  it('shows the struck reading of T-17 struck through, not hidden', async () => {
    const { page, context } = await open(1280);
    await page.locator('.batches a', { hasText: 'T-17' }).click();
    const struck = page.locator('td s', { hasText: '3.1 mg/L' });
    await struck.waitFor();
    expect(await struck.count()).toBe(1);
    await context.close();
  }, 60_000);

  it('asks for a token when there is none, and says why one is not accepted', async () => {
    const page = await (await browser.newContext()).newPage();
    await page.goto(`${service.url}/page`);
    await page.getByLabel('Token').fill('fmt_not-a-token');
    await page.getByRole('button', { name: 'Open' }).click();
    const says = page.getByRole('alert');
    await expect(says.innerText()).resolves.toMatch(/\S/);
    expect(await page.getByLabel('Token').count()).toBe(1);
    await page.context().close();
  }, 60_000);
});
