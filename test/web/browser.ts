import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, type Browser, type BrowserContext, type Page } from 'playwright-core';
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
  /** Text size that the browser is set to, per cent. */
  readonly text?: 100 | 200;
}

/** Builds the web app where it is older than its sources. */
export async function builtApp(): Promise<void> {
  const builder = new URL('../../apps/api/bin/build-web.mjs', import.meta.url).href;
  const { buildWebIfNeeded } = await import(builder);
  buildWebIfNeeded();
}

/** Browsers by the text size that they are set to. */
const running = new Map<number, Promise<Browser>>();

function browser(text: number): Promise<Browser> {
  const args = [...flags, `--blink-settings=defaultFontSize=${String(16 * (text / 100))}`];
  const started = running.get(text) ?? chromium.launch({ executablePath: '/usr/bin/chromium', args });
  running.set(text, started);
  return started;
}

/** Ends the browsers that the pages of a test file shared. */
export async function closeBrowser(): Promise<void> {
  for (const each of running.values()) await (await each).close();
  running.clear();
}

/** What a browser is told of the person before it. */
function about({ language = 'en', size: [width, height] = [390, 844] }: Looks) {
  return { viewport: { width, height }, hasTouch: true, locale: language, reducedMotion: 'reduce' } as const;
}

/** A phone or a desk: a browser's own cookies, storage and service worker, and one page in it. */
export class Phone {
  private constructor(
    private readonly looks: Looks,
    /** The folder of a browser that can be closed and opened again. */
    private readonly profile: string | null,
    readonly context: BrowserContext,
    readonly page: Page,
    /** What the page complained about. */
    readonly complaints: string[],
  ) {}

  /** Opens one in the browser that the tests of a file share; nothing of it outlives `close`. */
  static async open(looks: Looks = {}): Promise<Phone> {
    return Phone.#in(looks, null, await (await browser(looks.text ?? 100)).newContext(about(looks)));
  }

  /** Opens one in a browser of its own with its profile on the disk, so that it can be restarted. */
  static async kept(looks: Looks = {}, profile = mkdtempSync(join(tmpdir(), 'furrowmark-phone-'))): Promise<Phone> {
    const options = { executablePath: '/usr/bin/chromium', args: flags, ...about(looks) };
    return Phone.#in(looks, profile, await chromium.launchPersistentContext(profile, options));
  }

  static async #in(looks: Looks, profile: string | null, context: BrowserContext): Promise<Phone> {
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
    return new Phone(looks, profile, context, page, complaints);
  }

  /** Opens the link that the office gave out, and waits until the records are on the phone. */
  async signIn(url: string, farm: Farm, path = '/', role: 'recorder' | 'reviewer' = 'recorder'): Promise<void> {
    await this.page.goto(`${url}${path}#token=${farm.tokens[role]}&operation=${farm.operationId}`);
    await this.page.locator('h1').first().waitFor();
    // Everything the app needs is on the phone once the service worker stands.
    await this.page.evaluate('navigator.serviceWorker.ready.then(() => true)');
  }

  /** Goes to another screen within the app, as its own links do. */
  async go(path: string): Promise<void> {
    await this.page.evaluate(`history.pushState(null, '', ${JSON.stringify(path)})`);
    await this.page.locator('h1').first().waitFor();
  }

  /** Closes the browser and opens it again with what was on its disk. */
  async restarted(): Promise<Phone> {
    if (this.profile === null) throw new Error('only a browser with a profile on the disk can be opened again');
    await this.context.close();
    return Phone.kept(this.looks, this.profile);
  }

  async close(): Promise<void> {
    await this.context.close();
    if (this.profile !== null) rmSync(this.profile, { recursive: true, force: true });
  }
}
