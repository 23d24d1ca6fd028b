import { spanishTitles } from '@furrowmark/rules/spanish-titles';
import type { Language } from '../words/catalogue.ts';

/** The rule's title in the device's language. */
export function ruleTitle(ruleId: string, title: string, language: Language): string {
  return language === 'es' ? (spanishTitles[ruleId] ?? title) : title;
}
