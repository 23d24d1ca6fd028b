import type { Outcome } from './outcome.ts';
import { spanishTitles } from './spanish-titles.ts';
import type { Language } from './words/index.ts';

/** A rule's title in a language; in English as given where there is none. */
export function titleIn({ ruleId, title }: Pick<Outcome, 'ruleId' | 'title'>, language: Language): string {
  return language === 'es' ? (spanishTitles[ruleId] ?? title) : title;
}
