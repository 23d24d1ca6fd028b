import type { Basis, Verdict } from '../outcome.ts';

const brokenWords: Record<Basis, string> = {
  regulation: 'Not met',
  certifier: "Against the certifier's ruling",
  guideline: 'Outside the guideline',
  ownPlan: 'Not as the system plan promises',
  practice: 'Outside your limit',
};

/**
 * The word for a verdict: what stands behind the limit decides how heavy it may be. Practice is never called a
 * violation; nothing is called met on behalf of a certifier or an agency, only as recorded.
 */
export function wordFor(basis: Basis, verdict: Verdict): string {
  switch (verdict) {
    case 'broken':
      return brokenWords[basis];
    case 'met':
      return basis === 'practice' ? 'Within your limit' : 'Met, as recorded';
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
export function sentence(basis: Basis, verdict: Verdict, facts: string): string {
  // A material's name may begin the sentence; a code of two letters ("pH") is left as it is written.
  const begun = /^[a-z]{3}/.test(facts) ? facts.charAt(0).toUpperCase() + facts.slice(1) : facts;
  return verdict === 'broken' || verdict === 'unknown' ? `${wordFor(basis, verdict)}. ${begun}` : begun;
}
