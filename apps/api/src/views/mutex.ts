/** Lets one at a time through, in the order of arrival. */
export class Mutex {
  #last: Promise<void> = Promise.resolve();
  #waiting = 0;

  get busy(): boolean {
    return this.#waiting > 0;
  }

  /** Resolves when it is one's turn, with what ends it. */
  async enter(): Promise<() => void> {
    this.#waiting += 1;
    const before = this.#last;
    let leave: () => void = () => undefined;
    this.#last = new Promise((done) => {
      leave = () => {
        leave = () => undefined;
        this.#waiting -= 1;
        done();
      };
    });
    await before;
    return () => leave();
  }
}
