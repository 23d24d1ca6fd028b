import { ruleById } from './catalogue.ts';
import { sentence } from './engine/words.ts';
import type { Outcome } from './outcome.ts';
import { isTellable, type Language } from './words/index.ts';

/**
 * What an outcome says in a language, its word in front. An outcome that a later version of the rules made, for which there
 * are no words here, stays in English as it came.
 */
export function messageIn(
  outcome: Pick<Outcome, 'ruleId' | 'basis' | 'outcome' | 'message' | 'said'>,
  language: Language,
): string {
  const { ruleId, basis, outcome: verdict, message, said } = outcome;
  if (language === 'en' || !isTellable(said)) return message;
  return sentence(basis, verdict, said, ruleById(ruleId) ?? {}, language);
}
