import { createHash } from 'node:crypto';

/** Chance that comes out the same for the same seed: what is tried can be tried again. */
export class Chance {
  #state: number;

  constructor(readonly seed: number) {
    this.#state = seed >>> 0;
  }

  /** From 0 up to but not including 1 (mulberry32, a public-domain generator). */
  next(): number {
    this.#state = (this.#state + 0x6d2b79f5) >>> 0;
    let mixed = this.#state;
    mixed = Math.imul(mixed ^ (mixed >>> 15), mixed | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  }

  /** A whole number from 0 to `below` - 1. */
  below(below: number): number {
    return Math.floor(this.next() * below);
  }

  /** One of those given. */
  of<T>(some: readonly [T, ...T[]]): T {
    return some[this.below(some.length)] ?? some[0];
  }

  /** A UUID of its own. */
  uuid(): string {
    const hex = createHash('sha256').update(`${this.seed} ${this.next()} ${this.next()}`).digest('hex');
    return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-4${hex.slice(13, 16)}-a${hex.slice(17, 20)}-${hex.slice(20, 32)}`;
  }
}
