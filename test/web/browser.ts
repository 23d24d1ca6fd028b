import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, type BrowserContext, type Page } from 'playwright-core';
import type { Farm } from './farm.ts';

const flags = [
  ...['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run'],
  ...['--disable-background-networking', '--disable-component-update', '--disable-sync', '--disable-dev-shm-usage'],
];

/** What a device is like. */
export interface Looks {
  readonly language?: 'en' | 'es';
  readonly theme?: 'light' | 'dark' | 'sun';
  readonly size?: readonly [width: number, height: number];
}

/** Builds the web app where it is older than its sources. */
export async function builtApp(): Promise<void> {
  const builder = new URL('../../apps/api/bin/build-web.mjs', import.meta.url).href;
  const { buildWebIfNeeded } = await import(builder);
  buildWebIfNeeded();
}

/** A phone: a browser with a profile on the disk, that can be closed and opened again. */
export class Phone {
  private constructor(
    private readonly profile: string,
    private readonly looks: Looks,
    readonly context: BrowserContext,
    readonly page: Page,
    /** What the page complained about. */
    readonly complaints: string[],
  ) {}

  static async open(looks: Looks = {}, profile = mkdtempSync(join(tmpdir(), 'furrowmark-phone-'))): Promise<Phone> {
    const [width, height] = looks.size ?? [390, 844];
    const context = await chromium.launchPersistentContext(profile, {
      executablePath: '/usr/bin/chromium',
      args: flags,
      viewport: { width, height },
      hasTouch: true,
      locale: looks.language ?? 'en',
      reducedMotion: 'reduce',
    });
    const { language = 'en', theme = 'light' } = looks;
    await context.addInitScript(
      `if (localStorage.getItem('furrowmark.settings') === null)
         localStorage.setItem('furrowmark.settings', ${JSON.stringify(JSON.stringify({ language, theme }))});`,
    );
    const page = context.pages()[0] ?? (await context.newPage());
    const complaints: string[] = [];
    page.on('pageerror', (error) => complaints.push(error.message));
    page.on('console', (message) => {
      // A browser says so itself when there is no reception.
      if (message.type() === 'error' && !/net::ERR_|Failed to load resource/.test(message.text()))
        complaints.push(message.text());
    });
    return new Phone(profile, looks, context, page, complaints);
  }

  /** Opens the link that the office gave out, and waits until the records are on the phone. */
  async signIn(url: string, farm: Farm, path = '/', role: 'recorder' | 'reviewer' = 'recorder'): Promise<void> {
    await this.page.goto(`${url}${path}#token=${farm.tokens[role]}&operation=${farm.operationId}`);
    await this.page.locator('h1').first().waitFor();
    // Everything the app needs is on the phone once the service worker stands.
    await this.page.evaluate('navigator.serviceWorker.ready.then(() => true)');
  }

  /** Closes the browser and opens it again with what was on its disk. */
  async restarted(): Promise<Phone> {
    await this.context.close();
    return Phone.open(this.looks, this.profile);
  }

  async close(): Promise<void> {
    await this.context.close();
    rmSync(this.profile, { recursive: true, force: true });
  }
}
