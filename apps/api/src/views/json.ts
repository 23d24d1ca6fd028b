import { utcText } from '@furrowmark/domain';
import type { NextDue, Outcome } from '@furrowmark/rules';

/** An outcome as JSON: its deadline as RFC 3339. */
export function outcomeJson({ dueAt, ...outcome }: Outcome): object {
  return dueAt === undefined ? outcome : { ...outcome, dueAt: utcText(dueAt) };
}

export function dueJson(next: NextDue | null): object | null {
  return next === null ? null : { ruleId: next.ruleId, at: utcText(next.at), what: next.what };
}
