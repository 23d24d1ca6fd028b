import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, type Browser, type BrowserContext, type Page, type Request } from 'playwright-core';
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
  /** The device's own time zone; without one that of the machine. */
  readonly zone?: string;
  /** A film that its camera sees (YUV4MPEG2); without one it has no camera. */
  readonly camera?: string;
}

/** The heading of a page that is there: one whose records are on their way has its heading already, and says it is busy. */
export const heading = 'h1:not([aria-busy=true] h1)';

/** Builds the web app where it is older than its sources. */
export async function builtApp(): Promise<void> {
  const builder = new URL('../../apps/api/bin/build-web.mjs', import.meta.url).href;
  const { buildWebIfNeeded } = await import(builder);
  buildWebIfNeeded();
}

/** Browsers by what they are started with: the text size that they are set to, what their camera sees. */
const running = new Map<string, Promise<Browser>>();

function browser({ text = 100, camera }: Looks): Promise<Browser> {
  const own = [
    `--blink-settings=defaultFontSize=${String(16 * (text / 100))}`,
    // The camera is allowed without being asked for.
    ...(camera === undefined
      ? []
      : [
          ...['--use-fake-ui-for-media-stream', '--use-fake-device-for-media-stream'],
          `--use-file-for-fake-video-capture=${camera}`,
        ]),
  ];
  const name = own.join(' ');
  const started =
    running.get(name) ?? chromium.launch({ executablePath: '/usr/bin/chromium', args: [...flags, ...own] });
  running.set(name, started);
  return started;
}

/** Ends the browsers that the pages of a test file shared. */
export async function closeBrowser(): Promise<void> {
  for (const each of running.values()) await (await each).close();
  running.clear();
}

/** What a browser is told of the person before it. */
function about({ language = 'en', size: [width, height] = [390, 844], zone }: Looks) {
  const timeZone = zone === undefined ? {} : { timezoneId: zone };
  return {
    viewport: { width, height },
    hasTouch: true,
    locale: language,
    reducedMotion: 'reduce',
    ...timeZone,
  } as const;
}

/** Ends once nothing was added to the page or taken away for 150 ms and nothing on it is busy, ten seconds at most. */
const quiet = `new Promise((done) => {
  const end = Date.now() + 10_000;
  let changed = Date.now();
  const watch = new MutationObserver(() => { changed = Date.now(); });
  watch.observe(document.body, { subtree: true, childList: true });
  const timer = setInterval(() => {
    const busy = document.querySelector('[aria-busy=true]') !== null;
    if ((busy || Date.now() - changed < 150) && Date.now() < end) return;
    clearInterval(timer);
    watch.disconnect();
    done();
  }, 25);
})`;

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
    /** Requests of the page that are not answered yet. */
    private readonly asked: ReadonlySet<Request>,
  ) {}

  /** Opens one in the browser that the tests of a file share; nothing of it outlives `close`. */
  static async open(looks: Looks = {}): Promise<Phone> {
    return Phone.#in(looks, null, await (await browser(looks)).newContext(about(looks)));
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
    const asked = new Set<Request>();
    page.on('request', (request) => asked.add(request));
    page.on('requestfinished', (request) => asked.delete(request));
    page.on('requestfailed', (request) => asked.delete(request));
    return new Phone(looks, profile, context, page, complaints, asked);
  }

  /** Opens the link that the office gave out, and waits until the records are on the phone. */
  async signIn(url: string, farm: Farm, path = '/', role: 'recorder' | 'reviewer' = 'recorder'): Promise<void> {
    await this.page.goto(`${url}${path}#token=${farm.tokens[role]}&operation=${farm.operationId}`);
    await this.page.locator(heading).first().waitFor();
    // Everything the app needs is on the phone once the service worker stands.
    await this.page.evaluate('navigator.serviceWorker.ready.then(() => true)');
  }

  /** Goes to another screen within the app, as its own links do. */
  async go(path: string): Promise<void> {
    await this.page.evaluate(`history.pushState(null, '', ${JSON.stringify(path)})`);
    await this.page.locator(heading).first().waitFor();
  }

  /**
   * Waits until the screen has stopped changing: no request is under way, nothing was added or taken away for 150 ms, and
   * it no longer says that it is busy. After ten seconds it is taken as it is.
   */
  async settled(): Promise<void> {
    const end = Date.now() + 10_000;
    do await this.page.evaluate(quiet);
    while (this.asked.size > 0 && Date.now() < end);
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
