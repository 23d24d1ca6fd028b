import { utcText } from '@furrowmark/domain';
import { dueIn, messageIn, titleIn, type Language, type NextDue, type Outcome } from '@furrowmark/rules';

/** An outcome as JSON: its deadline as RFC 3339, its sentences in the language asked for. */
export function outcomeJson(outcome: Outcome, language: Language = 'en'): object {
  const { dueAt, due, ...rest } = outcome;
  return {
    ...rest,
    title: titleIn(outcome, language),
    message: messageIn(outcome, language),
    ...(dueAt === undefined ? {} : { dueAt: utcText(dueAt) }),
    ...(due === undefined ? {} : { due: dueIn(due, language) }),
  };
}

export function dueJson(next: NextDue | null): object | null {
  return next === null ? null : { ruleId: next.ruleId, at: utcText(next.at), what: next.what };
}
