import type { Basis, Verdict } from '../outcome.ts';

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

const brokenWords: Record<Basis, string> = {
  regulation: 'Not met',
  certifier: "Against the certifier's ruling",
  guideline: 'Outside the guideline',
  ownPlan: 'Not as the system plan promises',
  practice: 'Outside your limit',
};

/** A rule's own word for broken as it stands inside a sentence, where "outside your limit" would speak of a limit that there is none of. */
export interface BrokenWord {
  readonly en: string;
  readonly es: string;
}

/**
 * The rule's own word for broken, where it may be said: it stands for practice only. A regulation, a ruling, a
 * guideline and the system plan keep their own words, whatever the rule calls it.
 */
export const ownWord = (
  basis: Basis,
  verdict: Verdict,
  rule: { readonly brokenWord?: BrokenWord },
): BrokenWord | null => (basis === 'practice' && verdict === 'broken' ? (rule.brokenWord ?? null) : null);

/**
 * The word for a verdict: what stands behind the limit decides how heavy it may be. Practice is never called a
 * violation; nothing is called met on behalf of a certifier or an agency, only as recorded. A rule without a limit of the operation's own brings its word (`brokenWord`).
 */
export function wordFor(basis: Basis, verdict: Verdict, rule: { readonly brokenWord?: BrokenWord } = {}): string {
  switch (verdict) {
    case 'broken':
      return capital(ownWord(basis, verdict, rule)?.en ?? brokenWords[basis]);
    case 'met':
      return basis === 'practice' && rule.brokenWord === undefined ? 'Within your limit' : 'Met, as recorded';
    case 'caution':
      return 'Take care';
    case 'due':
      return 'Due';
    case 'unknown':
      return 'Cannot tell';
    case 'notApplicable':
      return 'Does not apply';
  }
}

/** The facts with their word in front, where the word adds something. */
export function sentence(
  basis: Basis,
  verdict: Verdict,
  facts: string,
  rule: { readonly brokenWord?: BrokenWord } = {},
): string {
  // A material's name may begin the sentence; a code of two letters ("pH") is left as it is written.
  const begun = /^[a-z]{3}/.test(facts) ? capital(facts) : facts;
  return verdict === 'broken' || verdict === 'unknown' ? `${wordFor(basis, verdict, rule)}. ${begun}` : begun;
}
