import { isConnectionLost } from '../database/index.ts';

/** Something that waits to be appended to one log. `weight` is its number of records. */
export interface Waiting<Request, Answer> {
  readonly request: Request;
  readonly weight: number;
  readonly settle: (answer: Answer) => void;
  readonly fail: (reason: unknown) => void;
}

/**
 * The line before one log. While a group is being written, what arrives waits and becomes the next group: under load
 * groups grow, not the number of transactions. Should a group fail for another reason than a lost connection, each of
 * its requests is tried alone, so that one bad request cannot take others down with it.
 */
export class Line<Request, Answer> {
  readonly #waiting: Waiting<Request, Answer>[] = [];
  #weight = 0;
  #running: Promise<void> | null = null;

  constructor(
    private readonly write: (requests: readonly Request[]) => Promise<readonly Answer[]>,
    private readonly mostInGroup: number,
    private readonly mostWaiting: number,
  ) {}

  /** The answer, once written; null where the line is full. */
  join(request: Request, weight: number): Promise<Answer> | null {
    if (this.#weight + weight > this.mostWaiting && this.#waiting.length > 0) return null;
    this.#weight += weight;
    const answer = new Promise<Answer>((settle, fail) => this.#waiting.push({ request, weight, settle, fail }));
    this.#running ??= this.#run();
    return answer;
  }

  /** True while nothing waits and nothing is being written. */
  get idle(): boolean {
    return this.#running === null;
  }

  /** Once everything that waits has been answered. */
  async drained(): Promise<void> {
    while (this.#running) await this.#running;
  }

  async #run(): Promise<void> {
    // Requests read from the network in the same turn belong to one group.
    await new Promise(setImmediate);
    try {
      while (this.#waiting.length > 0) await this.#writeGroup(this.#next());
    } finally {
      // In the same step as the last look at the line: whoever joins from here on starts it anew.
      this.#running = null;
    }
  }

  #next(): Waiting<Request, Answer>[] {
    const group: Waiting<Request, Answer>[] = [];
    let weight = 0;
    for (let first = this.#waiting[0]; first !== undefined; first = this.#waiting[0]) {
      if (group.length > 0 && weight + first.weight > this.mostInGroup) break;
      group.push(first);
      weight += first.weight;
      this.#waiting.shift();
    }
    this.#weight -= weight;
    return group;
  }

  async #writeGroup(group: readonly Waiting<Request, Answer>[]): Promise<void> {
    try {
      const answers = await this.write(group.map(({ request }) => request));
      group.forEach(({ settle, fail }, i) => {
        const answer = answers[i];
        if (answer === undefined) fail(new Error('a request of the group was not answered'));
        else settle(answer);
      });
    } catch (error) {
      if (group.length === 1 || isConnectionLost(error)) for (const { fail } of group) fail(error);
      else for (const alone of group) await this.#writeGroup([alone]);
    }
  }
}
