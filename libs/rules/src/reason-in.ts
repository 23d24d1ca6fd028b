import { spanishReasons } from './spanish-reasons.ts';
import type { Language } from './words/index.ts';

/** Why a rule exists, in a language; in English as given where there is none. */
export const reasonIn = (ruleId: string, reason: string, language: Language): string =>
  language === 'es' ? (spanishReasons[ruleId] ?? reason) : reason;
