import type { Head } from '../log/index.ts';

const mostRemembered = 10_000;
/** So many appends by way of the lock after one that found the log elsewhere than remembered: somebody else appends too. */
const cautious = 20;

/**
 * Where the logs stood after this process's last append to each. Only a guess, for other processes append too: an append
 * that builds on it is refused by the database where the log stands elsewhere by now.
 */
export class RememberedHeads {
  readonly #heads = new Map<string, { head: Head; caution: number }>();

  /** Where the log probably stands; null where that is better asked. */
  guess(operationId: string): Head | null {
    const known = this.#heads.get(operationId);
    return known === undefined || known.caution > 0 ? null : known.head;
  }

  /** The log stands there now. */
  remember(operationId: string, head: Head): void {
    const caution = Math.max(0, (this.#heads.get(operationId)?.caution ?? 0) - 1);
    this.#heads.delete(operationId);
    this.#heads.set(operationId, { head, caution });
    const [oldest] = this.#heads.keys();
    if (this.#heads.size > mostRemembered && oldest !== undefined) this.#heads.delete(oldest);
  }

  /** The guess was wrong. */
  wrong(operationId: string): void {
    const known = this.#heads.get(operationId);
    if (known !== undefined) known.caution = cautious;
  }
}
