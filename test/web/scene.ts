import { TestService } from '../support/service.ts';
import { builtApp, closeBrowser, heading, Phone, type Looks } from './browser.ts';
import { farm, type Farm } from './farm.ts';

/** A service with the invented farm in it, and one page at a time that its manager has open. */
export class Scene {
  #phone: Phone | null = null;

  private constructor(
    readonly service: TestService,
    readonly op: Farm,
  ) {}

  static async start(): Promise<Scene> {
    await builtApp();
    const service = await TestService.start();
    return new Scene(service, await farm(service));
  }

  /** The device that `open` opened last. */
  get phone(): Phone {
    if (this.#phone === null) throw new Error('nothing is open');
    return this.#phone;
  }

  /** Opens a screen as the manager, on a device of its own; the one before is closed. */
  async open(path: string, looks: Looks): Promise<Phone['page']> {
    await this.closePage();
    this.#phone = await Phone.open(looks);
    const { page } = this.#phone;
    await page.goto(`${this.service.url}${path}#token=${this.op.tokens.manager}&operation=${this.op.operationId}`);
    await page.locator(heading).first().waitFor();
    return page;
  }

  async closePage(): Promise<void> {
    await this.#phone?.close();
    this.#phone = null;
  }

  async close(): Promise<void> {
    await this.closePage();
    await closeBrowser();
    await this.service.close();
  }
}
