import { asOf, type Season } from '@furrowmark/domain';
import type { PackId, Rule } from './rule.ts';

/** A set of rules that bind together, as data: a rule names the packs it belongs to. */
export interface Pack {
  readonly id: PackId;
  readonly name: string;
}

export const packs: readonly Pack[] = [
  { id: 'us-organic', name: 'United States: organic regulations (7 CFR part 205)' },
  { id: 'us-produce-safety', name: 'United States: produce rule (21 CFR part 112)' },
  { id: 'traceability-list', name: 'United States: food traceability list (21 CFR part 1, subpart S)' },
  { id: 'practice', name: "The operation's own practice" },
];

/** The packs that bind: those the operation names, all where it names none; own practice always. */
export function packsOf(season: Season): ReadonlySet<string> {
  const operation = season.operation;
  const regimes = operation === null ? undefined : asOf(operation, Infinity).regimes;
  const bound = new Set<string>(regimes === undefined ? packs.map((pack) => pack.id) : [...regimes, 'practice']);
  // A farm that the produce rule does not reach is not held to it, whatever regimes were ticked.
  if (operation !== null && /exempt|not ?covered/i.test(asOf(operation, Infinity).farmStatus ?? '')) {
    bound.delete('us-produce-safety');
  }
  return bound;
}

/** Whether a rule binds: one of its packs does. */
export const binds = (rule: Rule, bound: ReadonlySet<string>): boolean => rule.packs.some((pack) => bound.has(pack));
