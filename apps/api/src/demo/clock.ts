import { Clock } from '../clock.ts';

/** The demo's time: stands where the season's diary puts it, and from the end of the season on is the machine's. */
export class SeasonClock extends Clock {
  #stands: number | null = null;

  now(): number {
    return this.#stands ?? Date.now();
  }

  /** Puts the clock to a moment of the season. */
  put(moment: string): void {
    this.#stands = Date.parse(moment);
  }

  /** Lets it run with the machine's from now on. */
  runOn(): void {
    this.#stands = null;
  }
}
