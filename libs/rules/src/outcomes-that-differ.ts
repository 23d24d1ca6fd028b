import type { Instant, Season } from '@furrowmark/domain';
import { catalogue } from './catalogue.ts';
import { evaluate } from './engine/evaluate.ts';
import type { Subject, Verdict } from './outcome.ts';

/** Outcomes as kept: by rule its revision, and by verdict the findings' ids. What does not apply is left out. */
export type KeptOutcomes = Readonly<
  Record<
    string,
    { readonly revision: number; readonly verdicts: Readonly<Partial<Record<Verdict, readonly string[] | undefined>>> }
  >
>;

/** An outcome that is another than it was kept. */
export interface Difference {
  readonly ruleId: string;
  /** The rule's revision then and now; null where there was or is no such rule. */
  readonly revision: { readonly before: number | null; readonly after: number | null };
  readonly findingId: string;
  /** null where the subject has no outcome of this rule any more. */
  readonly about: Subject | null;
  /** `notApplicable` also where the rule said nothing of the subject. */
  readonly before: Verdict;
  readonly after: Verdict;
}

/** The revision of every rule there is, by its id. */
export const ruleRevisions: Readonly<Record<string, number>> = Object.fromEntries(
  catalogue.map(({ id, revision }) => [id, revision]),
);

/** Rules that are others than they were, came or went, by the revisions of then; null where there was or is no such rule. */
export function rulesThatDiffer(
  then: Readonly<Record<string, number>>,
): Readonly<Record<string, { readonly before: number | null; readonly after: number | null }>> {
  const ids = [...new Set([...Object.keys(then), ...Object.keys(ruleRevisions)])];
  return Object.fromEntries(
    ids
      .map((id) => [id, { before: then[id] ?? null, after: ruleRevisions[id] ?? null }] as const)
      .filter(([, { before, after }]) => before !== after),
  );
}

/** Every outcome of the operation in the shape in which it is kept. */
export function outcomesToKeep(season: Season, now: Instant): KeptOutcomes {
  const kept: Record<string, { revision: number; verdicts: Partial<Record<Verdict, string[]>> }> = {};
  for (const { ruleId, revision, outcome, findingId } of evaluate(season, now)) {
    const { verdicts } = (kept[ruleId] ??= { revision, verdicts: {} });
    if (outcome !== 'notApplicable') (verdicts[outcome] ??= []).push(findingId);
  }
  return kept;
}

/**
 * What this program judges otherwise than the one that kept the outcomes did. The season must hold the records of then,
 * and `now` must be the clock of then; so what differs, differs by the rules and not by what was recorded since.
 */
export function outcomesThatDiffer(season: Season, now: Instant, kept: KeptOutcomes): Difference[] {
  const before = new Map<string, { readonly ruleId: string; readonly revision: number; readonly outcome: Verdict }>();
  for (const [ruleId, { revision, verdicts }] of Object.entries(kept)) {
    for (const outcome of verdictsKept) {
      for (const findingId of verdicts[outcome] ?? []) before.set(findingId, { ruleId, revision, outcome });
    }
  }
  const found: Difference[] = [];
  for (const { ruleId, revision, outcome: after, findingId, about } of evaluate(season, now)) {
    const was = before.get(findingId)?.outcome ?? 'notApplicable';
    before.delete(findingId);
    if (was === after) continue;
    found.push({
      ruleId,
      revision: { before: kept[ruleId]?.revision ?? null, after: revision },
      findingId,
      about,
      before: was,
      after,
    });
  }
  for (const [findingId, { ruleId, revision, outcome }] of before) {
    found.push({
      ruleId,
      revision: { before: revision, after: null },
      findingId,
      about: null,
      before: outcome,
      after: 'notApplicable',
    });
  }
  return found;
}

const verdictsKept: readonly Verdict[] = ['met', 'caution', 'broken', 'due', 'unknown'];
