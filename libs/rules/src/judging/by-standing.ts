import { broken, caution, met, unknown, type Evidence, type Judgement } from '../engine/judgement.ts';
import type { AnyLimits } from '../engine/limits.ts';
import type { Standing } from './span.ts';

/** The words for each way that a value may lie to its limit. */
export interface StandingWords {
  readonly within: string;
  readonly pastAdvised: string;
  readonly over: string;
  /** What is not sure, in words with the range; said when the limit, or only the advised value, lies inside. */
  readonly unsure: string;
}

/** Turns a standing into a judgement: never a crisp verdict while the limit lies inside the range. */
export function judged(limits: AnyLimits, standing: Standing, words: StandingWords, evidence: Evidence): Judgement {
  switch (standing) {
    case 'over':
      return broken(limits, words.over, evidence);
    case 'maybeOver':
      return unknown(limits, words.unsure, evidence);
    case 'pastAdvised':
      return caution(limits, words.pastAdvised, evidence);
    case 'maybePastAdvised':
      return caution(limits, words.unsure, evidence);
    case 'within':
      return met(limits, words.within, evidence);
  }
}
