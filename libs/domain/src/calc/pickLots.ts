import type { DateText } from '../calendar/index.ts';
import type { Instant } from '../facts/time.ts';
import { Decimal, decimal, decimalIn, zero } from '../quantity/index.ts';

/** What is left of a lot, and whether it may be used. */
export interface StockLot {
  readonly lotId: string;
  readonly materialId: string;
  /** For words to people. */
  readonly code: string;
  readonly balance: Decimal;
  /** The lot's own unit. */
  readonly unit: string;
  /** Last day of use, inclusive; null where it does not expire. */
  readonly expiresOn: DateText | null;
  readonly receivedAt: Instant;
  /** Why it may not be used (held, recalled, not approved), in words; null where it may. */
  readonly unusable: string | null;
}

export interface Picking {
  /** What to take, in the order to take it, in each lot's own unit, exact. */
  readonly picks: readonly { readonly lotId: string; readonly amount: Decimal; readonly unit: string }[];
  /** What is missing, in the unit asked for; 0 where the lots suffice. */
  readonly short: Decimal;
  readonly skipped: readonly { readonly lotId: string; readonly code: string; readonly why: string }[];
}

/**
 * Picks an amount from lots for use on a day: what expires first goes first, then what came first (stock that never
 * expires last). Lots that are expired, unusable or kept in a unit that does not convert are skipped, with the reason.
 */
export function pickLots(
  lots: readonly StockLot[],
  amount: { readonly value: number | Decimal; readonly unit: string },
  on: DateText,
): Picking {
  let rest = decimal(amount.value);
  const picks: { lotId: string; amount: Decimal; unit: string }[] = [];
  const skipped: { lotId: string; code: string; why: string }[] = [];
  for (const lot of [...lots].sort(firstExpiringFirst)) {
    if (!lot.balance.gt(0)) continue;
    const needed = decimalIn({ value: rest, unit: amount.unit }, lot.unit);
    const why = reasonNot(lot, amount.unit, on, needed);
    if (why !== null || needed === null) {
      skipped.push({ lotId: lot.lotId, code: lot.code, why: why ?? '' });
      continue;
    }
    if (!rest.gt(0)) continue;
    const enough = lot.balance.gte(needed);
    picks.push({ lotId: lot.lotId, amount: enough ? needed : lot.balance, unit: lot.unit });
    rest = enough ? zero : rest.minus(decimalIn({ value: lot.balance, unit: lot.unit }, amount.unit) ?? zero);
  }
  return { picks, short: rest, skipped };
}

function reasonNot(lot: StockLot, unit: string, on: DateText, needed: Decimal | null): string | null {
  if (lot.unusable !== null) return lot.unusable;
  if (lot.expiresOn !== null && lot.expiresOn < on) return `expired on ${lot.expiresOn}`;
  return needed === null ? `is kept in ${lot.unit}, which ${unit} does not convert into` : null;
}

function firstExpiringFirst(a: StockLot, b: StockLot): number {
  if (a.expiresOn !== b.expiresOn) {
    if (a.expiresOn === null) return 1;
    if (b.expiresOn === null) return -1;
    return a.expiresOn < b.expiresOn ? -1 : 1;
  }
  if (a.receivedAt !== b.receivedAt) return a.receivedAt - b.receivedAt;
  return a.lotId < b.lotId ? -1 : 1;
}
