import type { Instant, Season } from '@furrowmark/domain';
import { catalogue } from '../catalogue.ts';
import { Reach } from '../judging/reach.ts';
import type { Outcome, Subject, SubjectKind } from '../outcome.ts';
import { subjectsOfBatch } from './batch-subjects.ts';
import type { FactOf } from './facts.ts';
import { findingId } from './finding-id.ts';
import type { Judgement } from './judgement.ts';
import { binds, packsOf } from './packs.ts';
import { ruleBookOf, type RuleBook } from './rule-book.ts';
import type { Bench, Rule } from './rule.ts';
import { everySubject, factOf, operationIdOf, subjectOf, type Subjects } from './subjects.ts';
import { sentence } from './words.ts';

/** What may be chosen instead of the operation's own: another rule book, fewer rules. */
export interface Choice {
  readonly book?: RuleBook;
  readonly rules?: readonly Rule[];
}

/** An outcome, with what the engine keeps beside it. */
export interface Judged {
  readonly outcome: Outcome;
  readonly since: Instant | undefined;
  readonly next: Judgement['next'];
}

/** An evaluation under way: one season, one `now`, one book, and what was looked up already. */
export class Evaluation {
  readonly bench: Bench;
  readonly rules: readonly Rule[];
  readonly #operationId: string;
  readonly #subjects = new Map<object, Subject>();

  constructor(season: Season, now: Instant, choice: Choice = {}) {
    this.bench = { season, now, book: choice.book ?? ruleBookOf(season), reach: new Reach(season) };
    const bound = packsOf(season);
    this.rules = (choice.rules ?? catalogue).filter((rule) => binds(rule, bound));
    this.#operationId = operationIdOf(season) ?? '00000000-0000-0000-0000-000000000000';
  }

  /** One rule on one subject; null where it has nothing to say. */
  judge<K extends SubjectKind>(rule: Rule, kind: K, fact: FactOf[K]): Judged | null {
    const judgement = rule.judge(kind, fact, this.bench);
    if (judgement === null) return null;
    return { outcome: this.#outcome(rule, kind, fact, judgement), since: judgement.since, next: judgement.next };
  }

  /** Every rule on these subjects, in the catalogue's order. */
  judgeAll(subjects: Subjects): Judged[] {
    const all: Judged[] = [];
    for (const rule of this.rules)
      for (const kind of rule.about) this.#judgeKind(rule, kind, subjects[kind] ?? [], all);
    return all;
  }

  #judgeKind<K extends SubjectKind>(rule: Rule, kind: K, facts: readonly FactOf[K][], into: Judged[]): void {
    for (const fact of facts) {
      const judged = this.judge(rule, kind, fact);
      if (judged !== null) into.push(judged);
    }
  }

  #subject<K extends SubjectKind>(kind: K, fact: FactOf[K]): Subject {
    let subject = this.#subjects.get(fact);
    if (subject === undefined) {
      subject = subjectOf(this.bench.season, kind, fact);
      this.#subjects.set(fact, subject);
    }
    return subject;
  }

  #outcome<K extends SubjectKind>(rule: Rule, kind: K, fact: FactOf[K], judgement: Judgement): Outcome {
    const { limits } = judgement;
    const about = this.#subject(kind, fact);
    const off = !limits.enabled;
    const outcome = off ? 'notApplicable' : judgement.outcome;
    return {
      ruleId: rule.id,
      revision: rule.revision,
      about,
      outcome,
      severity: limits.severity,
      basis: limits.basis,
      title: rule.title,
      message: off ? 'Switched off in the rule book in force.' : sentence(limits.basis, outcome, judgement.message),
      figures: off ? [] : judgement.figures,
      recordIds: off ? [] : judgement.recordIds,
      citation: rule.citation,
      ruleBookSeq: limits.seq,
      findingId: findingId(this.#operationId, rule.id, about.kind, about.id),
      ...(off || judgement.dueAt === undefined ? {} : { dueAt: judgement.dueAt }),
      ...(off || judgement.due === undefined ? {} : { due: judgement.due }),
    };
  }
}

const outcomesOf = (all: readonly Judged[]): Outcome[] => all.map((judged) => judged.outcome);

/** Every rule on everything the records tell of. The order of records' arrival does not matter. */
export function evaluate(season: Season, now: Instant, choice?: Choice): Outcome[] {
  return outcomesOf(new Evaluation(season, now, choice).judgeAll(everySubject(season)));
}

/** Every rule that bears on a batch: on itself, its draws, lots, water, vessel, instruments, equipment, fields, harvests. */
export function judgeBatch(season: Season, batchId: string, now: Instant, choice?: Choice): Outcome[] {
  const batch = season.batch(batchId);
  if (batch === undefined) return [];
  const evaluation = new Evaluation(season, now, choice);
  return outcomesOf(evaluation.judgeAll(subjectsOfBatch(season, batch, evaluation.bench.reach)));
}

/** One rule on one subject; null where the rule has nothing to say of it, does not bind, or it is not known. */
export function judgeSubject(
  season: Season,
  ruleId: string,
  subject: { readonly kind: SubjectKind; readonly id: string },
  now: Instant,
  choice?: Choice,
): Outcome | null {
  const evaluation = new Evaluation(season, now, choice);
  const rule = evaluation.rules.find((each) => each.id === ruleId);
  if (rule === undefined) return null;
  const fact = factOf(season, subject.kind, subject.id);
  return fact === undefined ? null : (evaluation.judge(rule, subject.kind, fact)?.outcome ?? null);
}

/** Every rule on one subject, whatever its kind. */
export function judgeThing(
  season: Season,
  subject: { readonly kind: SubjectKind; readonly id: string },
  now: Instant,
  choice?: Choice,
): Outcome[] {
  const evaluation = new Evaluation(season, now, choice);
  const fact = factOf(season, subject.kind, subject.id);
  if (fact === undefined) return [];
  return evaluation.rules.flatMap((rule) => {
    const judged = evaluation.judge(rule, subject.kind, fact);
    return judged === null ? [] : [judged.outcome];
  });
}
