import type { Instant } from '@furrowmark/domain';
import type { Figure, Verdict } from '../outcome.ts';
import { say, type Said } from '../words/index.ts';
import type { AnyLimits } from './limits.ts';

/** A sentence, or how to make it: of hundreds of readings only the worst is put into words. */
export type Text = Said | (() => Said);
export const saidBy = (text: Text): Said => (typeof text === 'function' ? text() : text);

/** What a rule says of one subject, before the engine adds id, basis, words and finding. */
export interface Judgement {
  readonly outcome: Verdict;
  /** The limits compared with; they bring severity, basis and the adoption's `seq`. */
  readonly limits: AnyLimits;
  /** The facts, without the heavy word: "Applied 9 h 12 min after the tea's last air; the limit is 8 h." */
  readonly message: Text;
  readonly figures: readonly Figure[];
  readonly recordIds: readonly string[];
  readonly dueAt?: Instant | undefined;
  readonly due?: Said | undefined;
  /** What is said where only a stricter limit of the operation's own is broken: without what follows from the regulation. */
  readonly own?: Text | undefined;
  /** Of a limit that is the operation's own, stricter than asked: what holds by the figures asked; null = nothing. */
  readonly asked?: Verdict | null | undefined;
  /** When it came to be so; absent = when the last of its records happened. */
  readonly since?: Instant | undefined;
  /** Something the rule wants done next although its outcome is decided already: the next reading after a long gap. */
  readonly next?: { readonly at: Instant; readonly what: Said } | undefined;
}

/** Figures and records behind a judgement, and what may stand beside. */
export interface Evidence {
  readonly figures?: readonly Figure[];
  readonly recordIds?: readonly string[];
  readonly own?: Text | undefined;
  readonly since?: Instant | undefined;
  readonly next?: { readonly at: Instant; readonly what: Said } | undefined;
}

const judgement =
  (outcome: Exclude<Verdict, 'due'>) =>
  (limits: AnyLimits, message: Text, evidence: Evidence = {}): Judgement => ({
    outcome,
    limits,
    message,
    figures: evidence.figures ?? [],
    recordIds: evidence.recordIds ?? [],
    own: evidence.own,
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
export function due(limits: AnyLimits, at: Instant, what: Said, message: Text, evidence: Evidence = {}): Judgement {
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

/** What holds by what a regulation or guideline itself asks, whatever stricter limit the operation set. */
export function verdictAsked(judgement: Judgement | null): Verdict {
  if (judgement === null) return 'unknown';
  const { asked, outcome } = judgement;
  return asked === undefined ? outcome : (asked ?? 'unknown');
}

const weight: Record<Verdict, number> = { broken: 5, unknown: 4, caution: 3, due: 2, met: 1, notApplicable: 0 };

/** Orders verdicts for a reader, the worst first. */
export const worseFirst = (a: Verdict, b: Verdict): number => weight[b] - weight[a];

/** What decides a whole: something broken stays so; while anything is still due, nothing milder is settled. */
const decides: Record<Verdict, number> = { broken: 5, due: 4, unknown: 3, caution: 2, met: 1, notApplicable: 0 };

/** More would only be repetition; the count is in the words. */
const mostFigures = 60;
const mostRecordIds = 500;
const worthCounting: ReadonlySet<Verdict> = new Set(['broken', 'unknown', 'caution']);

/** Those made while the rule book had the rule switched on; all of them where it never had. */
export function switchedOn(all: readonly Judgement[]): readonly Judgement[] {
  const on = all.filter(({ limits }) => limits.enabled);
  return on.length > 0 ? on : all;
}

/**
 * The worst of several judgements about one subject (of those that count: `switchedOn`), with the records of all that are
 * as bad, and the figures of these and of milder ones. While one is due, so is the whole, unless something is broken
 * already: a decided outcome must not change with the clock. null where there is none. `more` says how many others stand
 * behind the one in words.
 */
export function worst(judgements: readonly Judgement[], more: (n: number) => Said = andMore): Judgement | null {
  const all = switchedOn(judgements);
  let first: Judgement | undefined;
  for (const each of all) if (first === undefined || decides[each.outcome] > decides[first.outcome]) first = each;
  if (first === undefined || all.length === 1) return first ?? null;
  const { outcome, message } = first;
  const asBad = all.filter((each) => each.outcome === outcome);
  const counted = asBad.length > 1 && worthCounting.has(outcome);
  const rest = all.filter((each) => each.outcome !== outcome);
  return {
    ...first,
    message: counted ? () => say('common.then', { first: saidBy(message), second: more(asBad.length - 1) }) : message,
    figures: upTo(mostFigures, [...asBad, ...rest], (each) => each.figures),
    recordIds: [...new Set(upTo(mostRecordIds, asBad, (each) => each.recordIds))],
  };
}

function upTo<T>(most: number, all: readonly Judgement[], pick: (each: Judgement) => readonly T[]): T[] {
  const found: T[] = [];
  for (const each of all) {
    if (found.length >= most) break;
    found.push(...pick(each));
  }
  return found;
}

const andMore = (n: number): Said => (n === 1 ? say('common.sameOnce') : say('common.sameTimes', { n }));
