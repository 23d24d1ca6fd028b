import type { Batch, Instant, Season } from '@furrowmark/domain';
import { catalogue, ruleById } from '../catalogue.ts';
import { reachOf } from '../judging/reach.ts';
import type { Outcome, Subject, SubjectKind, Verdict } from '../outcome.ts';
import { subjectsOfBatch } from './batch-subjects.ts';
import type { FactOf } from './facts.ts';
import { findingId } from './finding-id.ts';
import { JudgedBefore, judgedBefore } from './judged-before.ts';
import type { Judged } from './judged.ts';
import { saidBy, type Judgement } from './judgement.ts';
import { loosened } from './loosened.ts';
import { binds, packsOf } from './packs.ts';
import { ruleBookOf, type BookEntry, type RuleBook } from './rule-book.ts';
import type { Bench, Owed, Rule } from './rule.ts';
import { operationIdOf, subjectOf, type Subjects } from './subjects.ts';
import { say, tell, type Language, type Said } from '../words/index.ts';
import { sentence } from './words.ts';

/** What may be chosen instead of the operation's own: another rule book, fewer rules. */
export interface Choice {
  readonly book?: RuleBook;
  readonly rules?: readonly Rule[];
  /** The season holds records that are only supposed: nothing of it is kept. */
  readonly supposed?: boolean;
}

/** An evaluation under way: one season, one `now`, one book, and what was looked up already. */
export class Evaluation {
  readonly bench: Bench;
  readonly rules: readonly Rule[];
  readonly #operationId: string;
  readonly #subjects = new Map<object, Subject>();
  readonly #before: JudgedBefore;

  constructor(season: Season, now: Instant, choice: Choice = {}) {
    const book = choice.book ?? ruleBookOf(season);
    this.bench = {
      season,
      now,
      book,
      reach: reachOf(season),
      adoptions: { faultsOf: faultsSaid, looserThanRegulation, changesOf },
    };
    const bound = packsOf(season);
    this.rules = (choice.rules ?? catalogue).filter((rule) => binds(rule, bound));
    this.#before = choice.supposed === true ? new JudgedBefore(season.version) : judgedBefore(season);
    this.#operationId = operationIdOf(season) ?? '00000000-0000-0000-0000-000000000000';
  }

  /**
   * One rule on one subject; null where it has nothing to say. Beside a batch, a rule that judges each use of a thing
   * speaks of that batch's uses only.
   */
  judge<K extends SubjectKind>(rule: Rule, kind: K, fact: FactOf[K], beside: string | null = null): Judged | null {
    const { book, now } = this.bench;
    if (beside !== null && rule.perBatch?.includes(kind) === true) return this.#judge(rule, kind, fact, beside);
    return this.#before.once(book, rule, kind, fact, now, () => this.#judge(rule, kind, fact, null));
  }

  #judge<K extends SubjectKind>(rule: Rule, kind: K, fact: FactOf[K], beside: string | null): Judged | null {
    const judgement = rule.judge(kind, fact, this.bench, beside);
    if (judgement === null) return null;
    const { since, limits } = judgement;
    const next = limits.enabled ? judgement.next : undefined;
    const outcome = this.#outcome(rule, kind, fact, judgement);
    return { outcome, since, next: next === undefined ? undefined : { at: next.at, what: tell(next.what, 'en') } };
  }

  /** Every rule on these subjects, in the catalogue's order. */
  judgeAll(subjects: Subjects): Judged[] {
    return this.#judgeAll(subjects, null);
  }

  /** Every rule that bears on a batch, in the catalogue's order. */
  judgeBatch(batch: Batch): Judged[] {
    return this.#judgeAll(subjectsOfBatch(this.bench.season, batch, this.bench.reach), batch.id);
  }

  #judgeAll(subjects: Subjects, beside: string | null): Judged[] {
    const all: Judged[] = [];
    for (const rule of this.rules)
      for (const kind of rule.about) this.#judgeKind(rule, kind, subjects[kind] ?? [], beside, all);
    return all;
  }

  #judgeKind<K extends SubjectKind>(
    rule: Rule,
    kind: K,
    facts: readonly FactOf[K][],
    beside: string | null,
    into: Judged[],
  ): void {
    for (const fact of facts) {
      const judged = this.judge(rule, kind, fact, beside);
      if (judged !== null) into.push(judged);
    }
  }

  /** What the rules have done by a day of these subjects, in the catalogue's order. */
  owedOf(
    subjects: Subjects,
  ): { readonly rule: Rule; readonly about: Subject; readonly findingId: string; readonly owed: Owed }[] {
    return this.rules.flatMap((rule) =>
      rule.owesOf.flatMap((kind) => this.#owedOfKind(rule, kind, subjects[kind] ?? [])),
    );
  }

  #owedOfKind<K extends SubjectKind>(rule: Rule, kind: K, facts: readonly FactOf[K][]) {
    return facts.flatMap((fact) => {
      const owed = rule.owed(kind, fact, this.bench);
      if (owed === null) return [];
      const about = this.#subject(kind, fact);
      return [{ rule, about, findingId: findingId(this.#operationId, rule.id, about.kind, about.id), owed }];
    });
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
    const said = off ? say('common.off') : saidBy(judgement.message);
    return {
      ruleId: rule.id,
      revision: rule.revision,
      about,
      outcome,
      severity: limits.severity,
      basis: limits.basis,
      title: rule.title,
      message: sentence(limits.basis, outcome, said, rule),
      said,
      figures: off ? [] : judgement.figures,
      recordIds: off ? [] : judgement.recordIds,
      citation: rule.citation,
      ruleBookSeq: limits.seq,
      findingId: findingId(this.#operationId, rule.id, about.kind, about.id),
      ...(off || judgement.dueAt === undefined ? {} : { dueAt: judgement.dueAt }),
      ...(off || judgement.due === undefined ? {} : { due: tell(judgement.due, 'en') }),
    };
  }
}

/** One outcome that would differ. */
export interface Change {
  readonly batchId: string;
  readonly ruleId: string;
  readonly about: Subject;
  readonly before: Verdict;
  readonly after: Verdict;
}
export interface Comparison {
  readonly changed: readonly Change[];
  readonly unchanged: number;
}

/** Whether anything of a batch happened in a stretch of time. */
function happenedWithin(batch: Batch, from: Instant, to: Instant): boolean {
  return batch.records.some((record) => record.state !== 'struck' && record.at.at >= from && record.at.at <= to);
}

/** Compares two books over the batches of a stretch of time, for these rules. */
export function compareBooks(
  season: Season,
  now: Instant,
  books: { readonly before: RuleBook; readonly after: RuleBook },
  rules: readonly Rule[],
  { from = -Infinity, to = Infinity }: { readonly from?: Instant; readonly to?: Instant } = {},
): Comparison {
  const before = new Evaluation(season, now, { book: books.before, rules });
  const after = new Evaluation(season, now, { book: books.after, rules });
  const changed: Change[] = [];
  let unchanged = 0;
  for (const batch of season.batches()) {
    if (!happenedWithin(batch, from, to)) continue;
    const held = new Map(before.judgeBatch(batch).map(({ outcome }) => [outcome.findingId, outcome]));
    for (const { outcome } of after.judgeBatch(batch)) {
      const was = held.get(outcome.findingId);
      if (was === undefined) continue;
      if (was.outcome === outcome.outcome) unchanged += 1;
      else changed.push(change(batch.id, was, outcome));
    }
  }
  return { changed, unchanged };
}

const change = (batchId: string, was: Outcome, is: Outcome): Change => ({
  batchId,
  ruleId: is.ruleId,
  about: is.about,
  before: was.outcome,
  after: is.outcome,
});

/** What an adoption changed among batches of the time that it reaches back over. */
function changesOf(
  { season, now, book }: Bench,
  without: RuleBook,
  entries: readonly BookEntry[],
  from: Instant,
  to: Instant,
): Comparison {
  const named = new Set(entries.map((entry) => entry.ruleId));
  // A rule about adoptions would ask about itself without end; no batch depends on it.
  const rules = catalogue.filter((rule) => named.has(rule.id) && !rule.about.includes('operation'));
  return compareBooks(season, now, { before: without, after: book }, rules, { from, to });
}

/** Why entries of an adoption can have no effect, in English: an unknown rule or parameter, a value that cannot be. */
export const faultsOf = (entries: readonly BookEntry[], language: Language = 'en'): readonly string[] =>
  faultsSaid(entries).map((fault) => tell(fault, language));

function faultsSaid(entries: readonly BookEntry[]): readonly Said[] {
  return entries.flatMap((entry) => {
    const rule = ruleById(entry.ruleId);
    if (rule === undefined) return [say('fault.noRule', { ruleId: entry.ruleId })];
    return Object.entries(entry.parameters ?? {})
      .map(([name, value]) => rule.faultOf(name, value))
      .filter((fault) => fault !== null);
  });
}

/** In words, where entries ask for less than a regulation that binds the operation. */
export function looserThanRegulation(season: Season, entries: readonly BookEntry[]): readonly Said[] {
  const bound = packsOf(season);
  return entries.flatMap((entry) => {
    const rule = ruleById(entry.ruleId);
    return rule === undefined || !binds(rule, bound) ? [] : loosened(rule, entry);
  });
}
