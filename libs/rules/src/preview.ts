import type { Instant, Season } from '@furrowmark/domain';
import { catalogue } from './catalogue.ts';
import { compareBooks, type Comparison } from './engine/evaluation.ts';
import { ruleBookOf, type BookEntry } from './engine/rule-book.ts';

/** Which outcomes would differ had these entries held throughout, whatever else was adopted. Nothing is recorded. */
export function previewRuleBook(
  season: Season,
  entries: readonly BookEntry[],
  range: { readonly from?: Instant; readonly to?: Instant },
  now: Instant,
): Comparison {
  const before = ruleBookOf(season);
  const named = new Set(entries.map((entry) => entry.ruleId));
  const rules = catalogue.filter((rule) => named.has(rule.id));
  return compareBooks(season, now, { before, after: before.overridden(entries) }, rules, range);
}
