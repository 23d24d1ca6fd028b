import { later, type Instant, type RecordType, type Season } from '@furrowmark/domain';
import type { z } from 'zod';
import type { Basis, Severity, Subject, SubjectKind, Verdict } from '../outcome.ts';
import type { Reach } from '../judging/reach.ts';
import { say, type Said } from '../words/index.ts';
import type { FactOf } from './facts.ts';
import type { Judgement } from './judgement.ts';
import type { Limits } from './limits.ts';
import { asAsked, isStricter, ownOrAsked } from './own-limits.ts';
import { noteOf, type ParameterNote, type ParameterTable } from './parameter.ts';
import type { BookEntry, RuleBook, Segment } from './rule-book.ts';
import type { BrokenWord } from './words.ts';

/** Sets of rules that bind together; which of them bind is the operation's `regimes`. Own practice always does. */
export type PackId = 'us-organic' | 'us-produce-safety' | 'traceability-list' | 'practice';

/** What every judgement may look at. */
export interface Bench {
  readonly season: Season;
  readonly now: Instant;
  readonly book: RuleBook;
  readonly reach: Reach;
  readonly adoptions: AdoptionReview;
}

/** What the rule on adoptions asks the engine: it must not know the catalogue that it stands in. */
export interface AdoptionReview {
  /** Why entries can have no effect; empty where all can. */
  faultsOf(entries: readonly BookEntry[]): readonly Said[];
  /** In words, where entries ask for less than a regulation that binds the operation; empty where none does. */
  looserThanRegulation(season: Season, entries: readonly BookEntry[]): readonly Said[];
  /** Outcomes that would be others under a book without the adoption, of batches of a stretch of time. */
  changesOf(
    bench: Bench,
    without: RuleBook,
    entries: readonly BookEntry[],
    from: Instant,
    to: Instant,
  ): {
    readonly changed: readonly {
      readonly ruleId: string;
      readonly about: Subject;
      readonly before: Verdict;
      readonly after: Verdict;
    }[];
  };
}

/** What a rule's judge is given besides the facts. */
export interface Given<P> extends Bench {
  /** Of a `perBatch` rule: the batch beside which the thing is shown; null = everything that was done with it. */
  readonly beside: string | null;
  /** The rule as the book in force at that instant has it. */
  limits(at: Instant): Limits<P>;
}

/** Something to be done by a time, in the imperative. */
export interface Owed {
  readonly at: Instant;
  readonly what: Said;
}

/** A rule as its file writes it. */
export interface RuleText<S extends ParameterTable> {
  readonly id: string;
  /** Raised when the rule itself changes, not when a limit does. */
  readonly revision: number;
  readonly title: string;
  /** Why it exists, in two sentences that a grower understands. */
  readonly reason: string;
  readonly basis: Exclude<Basis, 'ownPlan'>;
  /** Section and the date it was read, or that it is common practice or from memory. */
  readonly citation: string;
  readonly severity: Severity;
  readonly packs: readonly PackId[];
  readonly parameters: () => S;
  /** Said for broken instead of "Outside your limit", where no limit of the operation's is involved: "recalled". */
  readonly brokenWord?: BrokenWord;
  /** Kinds of thing each use of which it judges: beside a batch it speaks of that batch's uses only. */
  readonly perBatch?: readonly SubjectKind[];
  /** The instant whose rule book counts, in words: "the draw". */
  readonly chosenAt: string;
  /** Kinds of thing and record types that can change an outcome. */
  readonly looksAt: { readonly kinds: readonly SubjectKind[]; readonly records: readonly RecordType[] };
  /** What it has done by a day of things that are no tank's, whatever was judged of them: a calibration, a training. */
  readonly owes?: { readonly [K in SubjectKind]?: (fact: FactOf[K], given: Given<z.output<S>>) => Owed | null };
  /** One function per kind of subject; null = nothing to say of this one. */
  readonly judge: { readonly [K in SubjectKind]?: (fact: FactOf[K], given: Given<z.output<S>>) => Judgement | null };
}

/** A rule of the catalogue, its parameter types put away. */
export interface Rule extends Omit<RuleText<ParameterTable>, 'judge' | 'owes' | 'parameters'> {
  /** The kinds of subject it speaks of. */
  readonly about: readonly SubjectKind[];
  readonly parameters: ReadonlyMap<string, ParameterNote & { readonly byDefault: number }>;
  /** `beside`: the batch beside which the thing is shown; absent = everything that was done with it. */
  judge<K extends SubjectKind>(kind: K, fact: FactOf[K], bench: Bench, beside?: string | null): Judgement | null;
  /** The kinds of which it has something done by a day. */
  readonly owesOf: readonly SubjectKind[];
  /** What it has done by a day of a thing; null where nothing, or where the book in force now has it switched off. */
  owed<K extends SubjectKind>(kind: K, fact: FactOf[K], bench: Bench): Owed | null;
  /** The rule as a book has it at an instant. */
  limitsIn(book: RuleBook, at: Instant): Limits<Readonly<Record<string, number>>>;
  /** Why an entry's parameter can have no effect; null where it can. */
  faultOf(parameter: string, value: unknown): Said | null;
}

/** A rule with its parameter types, for rules that read another's limits. */
export interface DefinedRule<S extends ParameterTable> extends Rule {
  limitsIn(book: RuleBook, at: Instant): Limits<z.output<S>>;
  /** The same with the figures that the regulation or guideline itself asks for, where the book asks for more. */
  askedIn(book: RuleBook, at: Instant): Limits<z.output<S>>;
}

/** What stands behind a limit that others set: what is broken of it may be the operation's own figure. */
const isAsked = (basis: Basis): boolean => basis === 'regulation' || basis === 'guideline';

const kindsInOrder: readonly SubjectKind[] = [
  'draw',
  'batch',
  'lot',
  'pile',
  'source',
  'vessel',
  'equipment',
  'instrument',
  'application',
  'field',
  'planting',
  'harvest',
  'person',
  'material',
  'operation',
];

/** Makes a rule of the catalogue from its text. */
export function defineRule<S extends ParameterTable>(text: RuleText<S>): DefinedRule<S> {
  const kept = new WeakMap<RuleBook, readonly Limits<z.output<S>>[]>();
  /** Those of the kept that ask for more than the regulation or guideline itself. */
  const stricterOnes = new WeakSet<object>();
  const table = later(text.parameters);
  const parameters = later(() => {
    const shape: Readonly<Record<string, z.ZodType>> = table().shape;
    const defaults: Readonly<Record<string, number>> = table().parse({});
    return new Map(
      Object.entries(shape).map(([name, schema]) => [name, { ...noteOf(schema), byDefault: defaults[name] ?? 0 }]),
    );
  });
  const faultOf = (parameter: string, value: unknown): Said | null => {
    // A parameter may be called anything, `constructor` included.
    const shape: Readonly<Record<string, z.ZodType>> = table().shape;
    const schema = Object.hasOwn(shape, parameter) ? shape[parameter] : undefined;
    if (schema === undefined) return say('fault.noParameter', { ruleId: text.id, name: parameter });
    const parsed = schema.safeParse(value);
    return parsed.success ? null : say('fault.value', { name: parameter, given: JSON.stringify(value) ?? 'nothing' });
  };
  const read = (segment: Segment): Limits<z.output<S>> => {
    // What an adoption names wrongly has no effect; the rule on adoptions reports it.
    const named = Object.entries(segment.parameters).filter(([name, value]) => faultOf(name, value) === null);
    const binds = segment.inSystemPlan && (text.basis === 'practice' || text.basis === 'guideline');
    return {
      enabled: segment.enabled,
      severity: segment.severity ?? text.severity,
      basis: segment.ruling !== null ? 'certifier' : binds ? 'ownPlan' : text.basis,
      inSystemPlan: segment.inSystemPlan,
      ruling: segment.ruling,
      seq: segment.seq,
      from: segment.from,
      parameters: table().parse(Object.fromEntries(named)),
    };
  };
  const limitsIn = (book: RuleBook, at: Instant): Limits<z.output<S>> => {
    let all = kept.get(book);
    if (all === undefined) {
      all = book.segments(text.id).map(read);
      kept.set(book, all);
      for (const limits of all) if (isStricter(limits, parameters())) stricterOnes.add(limits);
    }
    for (let i = all.length - 1; i >= 0; i--) {
      const limits = all[i];
      if (limits !== undefined && limits.from <= at) return limits;
    }
    throw new RangeError(`not an instant: ${String(at)}`);
  };

  const askedIn = (book: RuleBook, at: Instant): Limits<z.output<S>> => asAsked(limitsIn(book, at), parameters());

  return {
    id: text.id,
    revision: text.revision,
    title: text.title,
    reason: text.reason,
    basis: text.basis,
    citation: text.citation,
    severity: text.severity,
    packs: text.packs,
    chosenAt: text.chosenAt,
    looksAt: text.looksAt,
    ...(text.perBatch === undefined ? {} : { perBatch: text.perBatch }),
    ...(text.brokenWord === undefined ? {} : { brokenWord: text.brokenWord }),
    about: kindsInOrder.filter((kind) => text.judge[kind] !== undefined),
    owesOf: kindsInOrder.filter((kind) => text.owes?.[kind] !== undefined),
    get parameters() {
      return parameters();
    },
    faultOf,
    limitsIn,
    askedIn,
    owed(kind, fact, bench) {
      if (!limitsIn(bench.book, bench.now).enabled) return null;
      return text.owes?.[kind]?.(fact, { ...bench, beside: null, limits: (at) => limitsIn(bench.book, at) }) ?? null;
    },
    judge(kind, fact, bench, beside = null) {
      const judge = text.judge[kind];
      if (judge === undefined) return null;
      let stricter = false;
      const limits = (at: Instant): Limits<z.output<S>> => {
        const found = limitsIn(bench.book, at);
        stricter ||= stricterOnes.has(found);
        return found;
      };
      const judgement = judge(fact, { ...bench, beside, limits });
      if (!stricter || judgement?.outcome !== 'broken' || !isAsked(judgement.limits.basis)) return judgement;
      return ownOrAsked(judgement, judge(fact, { ...bench, beside, limits: (at) => askedIn(bench.book, at) }));
    },
  };
}
