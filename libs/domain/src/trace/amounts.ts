import { cut, exact, nothing, split } from '../fold/exact.ts';
import type { Decimal } from '../quantity/decimal.ts';

/**
 * How much of each followed thing a body holds, by key. A key with 0 is there in an amount that the records cannot
 * tell; a key that is absent is not there.
 */
export type Amounts = ReadonlyMap<string, Decimal>;

export const empty: Amounts = new Map();

export function add(into: Map<string, Decimal>, amounts: Amounts): void {
  for (const [key, amount] of amounts) into.set(key, amount.plus(into.get(key) ?? nothing));
}

export function scaled(amounts: Amounts, share: Decimal): Amounts {
  return new Map([...amounts].map(([key, amount]) => [key, exact(amount).times(share)]));
}

/** Parts by weight that add up exactly to the whole. */
export function parted(amounts: Amounts, weights: readonly Decimal[]): Amounts[] {
  const parts = weights.map(() => new Map<string, Decimal>());
  for (const [key, amount] of amounts) {
    split(amount, weights).forEach((part, i) => parts[i]?.set(key, part));
  }
  return parts;
}

/** Something well mixed that amounts go into and are taken from: a lot in stock, a pile. */
export class Pool {
  readonly holds = new Map<string, Decimal>();
  /** What stands in it, in its own unit; null while that is not known. */
  balance: Decimal | null;

  constructor(balance: Decimal | null) {
    this.balance = balance;
  }

  /** Takes `amount` of the pool and so its share of everything held; of an unknown amount only the keys, with 0. */
  take(amount: Decimal | null): Amounts {
    const { balance } = this;
    const taken = new Map<string, Decimal>();
    for (const [key, held] of this.holds) {
      const part =
        amount === null || balance === null
          ? nothing
          : amount.gte(balance)
            ? held
            : cut(exact(held).times(amount).div(balance));
      taken.set(key, part);
      this.holds.set(key, held.minus(part));
    }
    if (amount !== null && balance !== null) this.balance = balance.minus(amount);
    return taken;
  }
}
