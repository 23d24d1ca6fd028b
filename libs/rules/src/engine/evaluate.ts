import type { Instant, Season } from '@furrowmark/domain';
import type { Outcome, SubjectKind } from '../outcome.ts';
import { Evaluation, type Choice } from './evaluation.ts';
import type { Judged } from './judged.ts';
import { everySubject, factOf } from './subjects.ts';

const outcomesOf = (all: readonly Judged[]): Outcome[] => all.map((judged) => judged.outcome);

/** Every rule on everything the records tell of. The order of records' arrival does not matter. */
export function evaluate(season: Season, now: Instant, choice?: Choice): Outcome[] {
  return outcomesOf(new Evaluation(season, now, choice).judgeAll(everySubject(season)));
}

/**
 * Every rule that bears on a batch: on itself, its draws, lots, water, vessel, instruments, equipment, fields, harvests.
 * Of a lot, a meter, a sprayer or a harvest that others share it tells what this batch had to do with it.
 */
export function judgeBatch(season: Season, batchId: string, now: Instant, choice?: Choice): Outcome[] {
  const batch = season.batch(batchId);
  if (batch === undefined) return [];
  return outcomesOf(new Evaluation(season, now, choice).judgeBatch(batch));
}

/** One rule on one subject; null where the rule has nothing to say of it, does not bind, or it is not known. */
export function judgeSubject(
  season: Season,
  ruleId: string,
  subject: { readonly kind: SubjectKind; readonly id: string },
  now: Instant,
  choice?: Choice,
): Outcome | null {
  const evaluation = new Evaluation(season, now, choice);
  const rule = evaluation.rules.find((each) => each.id === ruleId);
  if (rule === undefined) return null;
  const fact = factOf(season, subject.kind, subject.id);
  return fact === undefined ? null : (evaluation.judge(rule, subject.kind, fact)?.outcome ?? null);
}

/** Every rule on one subject, whatever its kind. */
export function judgeThing(
  season: Season,
  subject: { readonly kind: SubjectKind; readonly id: string },
  now: Instant,
  choice?: Choice,
): Outcome[] {
  const evaluation = new Evaluation(season, now, choice);
  const fact = factOf(season, subject.kind, subject.id);
  if (fact === undefined) return [];
  return evaluation.rules.flatMap((rule) => {
    const judged = evaluation.judge(rule, subject.kind, fact);
    return judged === null ? [] : [judged.outcome];
  });
}
