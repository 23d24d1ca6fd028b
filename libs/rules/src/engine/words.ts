import type { Basis, Outcome, Verdict } from '../outcome.ts';
import { isTellable, say, tell, type Language, type Said } from '../words/index.ts';

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** A rule's own word for broken as it stands inside a sentence, where "outside your limit" would speak of a limit that there is none of. */
export interface BrokenWord {
  readonly en: string;
  readonly es: string;
}
/** What of a rule decides its words. */
export interface Worded {
  readonly brokenWord?: BrokenWord;
}

/**
 * The rule's own word for broken, where it may be said: it stands for practice only. A regulation, a ruling, a
 * guideline and the system plan keep their own words, whatever the rule calls it.
 */
export const ownWord = (basis: Basis, verdict: Verdict, rule: Worded): BrokenWord | null =>
  basis === 'practice' && verdict === 'broken' ? (rule.brokenWord ?? null) : null;

/**
 * The word for a verdict: what stands behind the limit decides how heavy it may be. Practice is never called a
 * violation; nothing is called met on behalf of a certifier or an agency, only as recorded. A rule without a limit of the operation's own brings its word (`brokenWord`).
 */
export function wordFor(basis: Basis, verdict: Verdict, rule: Worded = {}, language: Language = 'en'): string {
  const own = ownWord(basis, verdict, rule);
  if (own !== null) return capital(own[language]);
  if (verdict === 'broken') return tell(say(`word.broken.${basis}`), language);
  const within = verdict === 'met' && basis === 'practice' && rule.brokenWord === undefined;
  return tell(say(within ? 'word.within' : `word.${verdict}`), language);
}

/** The facts alone. A material's name may begin them; a code of two letters ("pH") is left as it is written. */
function told(said: Said, language: Language): string {
  const facts = tell(said, language);
  return /^\p{Ll}{3}/u.test(facts) ? capital(facts) : facts;
}

/** The facts with their word in front, where the word adds something. */
export function sentence(
  basis: Basis,
  verdict: Verdict,
  said: Said,
  rule: Worded = {},
  language: Language = 'en',
): string {
  const facts = told(said, language);
  return verdict === 'broken' || verdict === 'unknown' ? `${wordFor(basis, verdict, rule, language)}. ${facts}` : facts;
}

/** What an outcome says, without its word. An outcome of a later version of the rules that this one has no words for stays as it came. */
export function factsIn({ said, message }: Pick<Outcome, 'said' | 'message'>, language: Language): string {
  return isTellable(said) ? told(said, language) : message;
}
