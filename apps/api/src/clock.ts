/** What the service takes for the time; the demo's steps through its season, the real one is the machine's. */
export abstract class Clock {
  /** Milliseconds since 1970-01-01T00:00Z. */
  abstract now(): number;
}

export const machineClock: Clock = { now: () => Date.now() };
