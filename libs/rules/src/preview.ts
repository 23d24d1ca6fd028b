import type { Batch, Instant, Season } from '@furrowmark/domain';
import { catalogue } from './catalogue.ts';
import { subjectsOfBatch } from './engine/batch-subjects.ts';
import { Evaluation } from './engine/evaluate.ts';
import { ruleBookOf, type BookEntry, type RuleBook } from './engine/rule-book.ts';
import type { Rule } from './engine/rule.ts';
import type { Outcome, Subject, Verdict } from './outcome.ts';

/** One outcome that would differ. */
export interface Change {
  readonly batchId: string;
  readonly ruleId: string;
  readonly about: Subject;
  readonly before: Verdict;
  readonly after: Verdict;
}
export interface Comparison {
  readonly changed: readonly Change[];
  readonly unchanged: number;
}

/** Whether anything of a batch happened in a stretch of time. */
function happenedWithin(batch: Batch, from: Instant, to: Instant): boolean {
  return batch.records.some((record) => record.state !== 'struck' && record.at.at >= from && record.at.at <= to);
}

/** Compares two books over the batches of a stretch of time, for these rules. */
export function compareBooks(
  season: Season,
  now: Instant,
  books: { readonly before: RuleBook; readonly after: RuleBook },
  rules: readonly Rule[],
  { from = -Infinity, to = Infinity }: { readonly from?: Instant; readonly to?: Instant } = {},
): Comparison {
  const [before, after] = [books.before, books.after].map((book) => new Evaluation(season, now, { book, rules }));
  const changed: Change[] = [];
  let unchanged = 0;
  if (before === undefined || after === undefined) return { changed, unchanged };
  for (const batch of season.batches()) {
    if (!happenedWithin(batch, from, to)) continue;
    const subjects = subjectsOfBatch(season, batch, before.bench.reach);
    const held = new Map(before.judgeAll(subjects).map(({ outcome }) => [outcome.findingId, outcome]));
    for (const { outcome } of after.judgeAll(subjects)) {
      const was = held.get(outcome.findingId);
      if (was === undefined) continue;
      if (was.outcome === outcome.outcome) unchanged += 1;
      else changed.push(change(batch.id, was, outcome));
    }
  }
  return { changed, unchanged };
}

const change = (batchId: string, was: Outcome, is: Outcome): Change => ({
  batchId,
  ruleId: is.ruleId,
  about: is.about,
  before: was.outcome,
  after: is.outcome,
});

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

/** Why an entry can have no effect: an unknown rule or parameter, a value that cannot be. Empty where all can. */
export function faultsOf(entries: readonly BookEntry[]): readonly string[] {
  return entries.flatMap((entry) => {
    const rule = catalogue.find((each) => each.id === entry.ruleId);
    if (rule === undefined) return [`there is no rule “${entry.ruleId}”`];
    return Object.entries(entry.parameters ?? {})
      .map(([name, value]) => rule.faultOf(name, value))
      .filter((fault) => fault !== null);
  });
}
