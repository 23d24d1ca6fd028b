import { broken, caution, met, unknown, type Evidence, type Judgement, type Text } from '../engine/judgement.ts';
import type { AnyLimits } from '../engine/limits.ts';
import type { Said } from '../words/index.ts';
import type { Standing } from './span.ts';

/** The words for each way that a value may lie to its limit. */
export interface StandingWords {
  readonly within: Said;
  readonly pastAdvised: Said;
  readonly over: Said;
  /** What is not sure, in words with the range; said when the limit, or only the advised value, lies inside. */
  readonly unsure: Said;
}

/** Turns a standing into a judgement: never a crisp verdict while the limit lies inside the range. */
export function judged(
  limits: AnyLimits,
  standing: Standing,
  words: StandingWords | (() => StandingWords),
  evidence: Evidence,
): Judgement {
  const say = (pick: (words: StandingWords) => Said): Text =>
    typeof words === 'function' ? () => pick(words()) : pick(words);
  switch (standing) {
    case 'over':
      return broken(
        limits,
        say((w) => w.over),
        evidence,
      );
    case 'maybeOver':
      return unknown(
        limits,
        say((w) => w.unsure),
        evidence,
      );
    case 'pastAdvised':
      return caution(
        limits,
        say((w) => w.pastAdvised),
        evidence,
      );
    case 'maybePastAdvised':
      return caution(
        limits,
        say((w) => w.unsure),
        evidence,
      );
    case 'within':
      return met(
        limits,
        say((w) => w.within),
        evidence,
      );
  }
}
