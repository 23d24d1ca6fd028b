import type { Instant, Season } from '@furrowmark/domain';
import { subjectsOfBatch } from './engine/batch-subjects.ts';
import { Evaluation } from './engine/evaluation.ts';

export interface NextDue {
  readonly ruleId: string;
  readonly at: Instant;
  /** In the imperative: "record oxygen". */
  readonly what: string;
}

/**
 * What has to be done next at a batch, the earliest first; one that is late already stays until it is done or no
 * longer possible. Deadlines of water tests, meters and papers are not the tank's and are left out.
 */
export function allDue(season: Season, batchId: string, now: Instant): readonly NextDue[] {
  const batch = season.batch(batchId);
  if (batch === undefined) return [];
  const evaluation = new Evaluation(season, now);
  const { batch: batches = [], draw = [] } = subjectsOfBatch(season, batch, evaluation.bench.reach);
  const found: NextDue[] = [];
  for (const { outcome, next } of evaluation.judgeAll({ batch: batches, draw })) {
    const { ruleId, dueAt, due } = outcome;
    if (outcome.outcome === 'due' && dueAt !== undefined && due !== undefined && !papers.has(ruleId)) {
      found.push({ ruleId, at: dueAt, what: due });
    } else if (next !== undefined && outcome.outcome !== 'notApplicable') {
      found.push({ ruleId, at: next.at, what: next.what });
    }
  }
  return found.sort((a, b) => a.at - b.at || (a.ruleId < b.ruleId ? -1 : 1));
}

/** What the laboratory or the office owes, not the person at the tank. */
const papers: ReadonlySet<string> = new Set(['source-tested', 'additive-tested', 'record-complete', 'reference-known']);

/** The next thing due at a batch, or null. */
export const nextDue = (season: Season, batchId: string, now: Instant): NextDue | null =>
  allDue(season, batchId, now)[0] ?? null;
