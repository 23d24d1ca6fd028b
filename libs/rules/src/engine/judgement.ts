import type { Instant } from '@furrowmark/domain';
import type { Figure, Verdict } from '../outcome.ts';
import type { AnyLimits } from './limits.ts';

/** What a rule says of one subject, before the engine adds id, basis, words and finding. */
export interface Judgement {
  readonly outcome: Verdict;
  /** The limits compared with; they bring severity, basis and the adoption's `seq`. */
  readonly limits: AnyLimits;
  /** The facts, without the heavy word: "Applied 9 h 12 min after the tea's last air; the limit is 8 h." */
  readonly message: string;
  readonly figures: readonly Figure[];
  readonly recordIds: readonly string[];
  readonly dueAt?: Instant | undefined;
  readonly due?: string | undefined;
  /** When it came to be so; absent = when the last of its records happened. */
  readonly since?: Instant | undefined;
  /** Something the rule wants done next although its outcome is decided already: the next reading after a long gap. */
  readonly next?: { readonly at: Instant; readonly what: string } | undefined;
}

/** Figures and records behind a judgement, and what may stand beside. */
export interface Evidence {
  readonly figures?: readonly Figure[];
  readonly recordIds?: readonly string[];
  readonly since?: Instant | undefined;
  readonly next?: { readonly at: Instant; readonly what: string } | undefined;
}

const judgement =
  (outcome: Exclude<Verdict, 'due'>) =>
  (limits: AnyLimits, message: string, evidence: Evidence = {}): Judgement => ({
    outcome,
    limits,
    message,
    figures: evidence.figures ?? [],
    recordIds: evidence.recordIds ?? [],
    since: evidence.since,
    next: evidence.next,
  });

export const met = judgement('met');
/** Inside the limit, past the advised value. */
export const caution = judgement('caution');
export const broken = judgement('broken');
/** What was recorded cannot tell; the message says what is missing. */
export const unknown = judgement('unknown');
export const notApplicable = judgement('notApplicable');

/** Not decidable yet: `what` in the imperative, by when. */
export function due(limits: AnyLimits, at: Instant, what: string, message: string, evidence: Evidence = {}): Judgement {
  return {
    outcome: 'due',
    limits,
    message,
    figures: evidence.figures ?? [],
    recordIds: evidence.recordIds ?? [],
    dueAt: at,
    due: what,
  };
}

const weight: Record<Verdict, number> = { broken: 5, unknown: 4, caution: 3, due: 2, met: 1, notApplicable: 0 };

/** Orders verdicts for a reader, the worst first. */
export const worseFirst = (a: Verdict, b: Verdict): number => weight[b] - weight[a];

/** What decides a whole: something broken stays so; while anything is still due, nothing milder is settled. */
const decides: Record<Verdict, number> = { broken: 5, due: 4, unknown: 3, caution: 2, met: 1, notApplicable: 0 };

/**
 * The worst of several judgements about one subject, with the figures and records of all that are as bad, and of
 * milder ones the figures. While one is due, so is the whole, unless something is broken already: a decided outcome
 * must not change with the clock. null where there is none. `more` says how many others stand behind the one in words.
 */
export function worst(all: readonly Judgement[], more: (n: number) => string = andMore): Judgement | null {
  const sorted = [...all].sort((a, b) => decides[b.outcome] - decides[a.outcome]);
  const first = sorted[0];
  if (first === undefined || sorted.length === 1) return first ?? null;
  const asBad = sorted.filter((j) => j.outcome === first.outcome);
  const others = new Set(asBad.map((j) => j.message));
  others.delete(first.message);
  return {
    ...first,
    message: others.size === 0 ? first.message : `${first.message} ${more(others.size)}`,
    figures: sorted.flatMap((j) => j.figures),
    recordIds: [...new Set(asBad.flatMap((j) => j.recordIds))],
  };
}

const andMore = (n: number): string => (n === 1 ? 'The same holds once more.' : `The same holds ${n} times more.`);
