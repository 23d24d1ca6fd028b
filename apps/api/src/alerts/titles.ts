import { ruleById } from '@furrowmark/rules';
import { spanishTitles } from '@furrowmark/rules/spanish-titles';

/** How a rule is called; by its id where this version does not know it any more. */
export function ruleTitle(ruleId: string, language: 'en' | 'es'): string {
  const title = ruleById(ruleId)?.title ?? ruleId;
  return language === 'es' ? (spanishTitles[ruleId] ?? title) : title;
}
