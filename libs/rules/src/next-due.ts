import type { Batch, Instant, Season } from '@furrowmark/domain';
import { Evaluation } from './engine/evaluation.ts';
import type { Judged } from './engine/judged.ts';
import { drawsOf, everySubject, type Subjects } from './engine/subjects.ts';
import type { Outcome, Subject, SubjectKind } from './outcome.ts';
import { tell } from './words/index.ts';

export interface NextDue {
  readonly ruleId: string;
  readonly at: Instant;
  /** In the imperative: "record oxygen". */
  readonly what: string;
}

/** Something to be done by a time, of whatever kind: at the tank or in the office. */
export interface Deadline extends NextDue {
  readonly findingId: string;
  readonly about: Subject;
}

/**
 * What has to be done next at a batch, the earliest first; one that is late already stays until it is done or no
 * longer possible. Deadlines of water tests, meters and papers are not the tank's and are left out.
 */
export function allDue(season: Season, batchId: string, now: Instant): readonly NextDue[] {
  return tankDeadlines(season, batchId, now).map(withoutFinding);
}

/** The same, each with the finding that it becomes when it is not met. */
export function tankDeadlines(season: Season, batchId: string, now: Instant): readonly Deadline[] {
  const batch = season.batch(batchId);
  return batch === undefined ? [] : atTheTank(new Evaluation(season, now), batch);
}

/** What `judgeBatch` says of a batch and the first of `allDue` (null: nothing is due), the batch judged once for both. */
export function judgeWithDue(
  season: Season,
  batchId: string,
  now: Instant,
): { readonly outcomes: readonly Outcome[]; readonly nextDue: NextDue | null } {
  const batch = season.batch(batchId);
  if (batch === undefined) return { outcomes: [], nextDue: null };
  const judged = new Evaluation(season, now).judgeBatch(batch);
  const [next] = tankDue(judged.filter(({ outcome }) => tanks.has(outcome.about.kind))).map(withoutFinding);
  return { outcomes: judged.map(({ outcome }) => outcome), nextDue: next ?? null };
}

/** What bears on a batch is due at its tank where it is due of the batch itself or of a draw from it. */
const tanks: ReadonlySet<SubjectKind> = new Set(['batch', 'draw']);

const atTheTank = (evaluation: Evaluation, batch: Batch): readonly Deadline[] =>
  tankDue(evaluation.judgeAll({ batch: [batch], draw: drawsOf(batch) }));

const tankDue = (judged: readonly Judged[]): readonly Deadline[] =>
  judged.flatMap((each) => deadline(each, ({ ruleId }) => !papers.has(ruleId))).sort(earliestFirst);

const withoutFinding = ({ ruleId, at, what }: Deadline): NextDue => ({ ruleId, at, what });

function deadline({ outcome, next }: Judged, wanted: (outcome: Judged['outcome']) => boolean): Deadline[] {
  const { ruleId, findingId, about, dueAt, due } = outcome;
  if (dueAt !== undefined && due !== undefined && wanted(outcome))
    return [{ ruleId, findingId, about, at: dueAt, what: due }];
  if (next !== undefined) return [{ ruleId, findingId, about, at: next.at, what: next.what }];
  return [];
}

const earliestFirst = (a: NextDue, b: NextDue): number => a.at - b.at || (a.ruleId < b.ruleId ? -1 : 1);

/** What the laboratory or the office owes, not the person at the tank. */
const papers: ReadonlySet<string> = new Set(['source-tested', 'additive-tested', 'record-complete', 'reference-known']);

/**
 * Every deadline of the operation that is not met yet, the earliest first: what is due at tanks in use, papers of
 * batches that wait for them, and what the office owes for the operation, its water and its ground, its meters, equipment,
 * people and lots.
 */
export function deadlinesOf(season: Season, now: Instant): readonly Deadline[] {
  const evaluation = new Evaluation(season, now);
  const office = new Evaluation(season, now, { rules: evaluation.rules.filter(({ id }) => papers.has(id)) });
  const found: Deadline[] = [];
  for (const batch of season.batches()) {
    if (batch.phase !== 'closed' && batch.phase !== 'reviewed') found.push(...atTheTank(evaluation, batch));
    found.push(...office.judgeAll({ batch: [batch] }).flatMap((each) => deadline(each, () => true)));
  }
  const { operation = [], source = [], field = [] } = everySubject(season);
  const owed: Subjects = { operation, source, field };
  found.push(...evaluation.judgeAll(owed).flatMap((each) => deadline(each, () => true)));
  const things = evaluation.owedOf(everySubject(season));
  found.push(
    ...things.map(({ rule, about, findingId, owed }) =>
      nameless({ ruleId: rule.id, findingId, about, at: owed.at, what: tell(owed.what, 'en') }),
    ),
  );
  return found.sort((a, b) => earliestFirst(a, b) || (a.findingId < b.findingId ? -1 : 1));
}

/** What a thing is called in what is kept or sent about: its code; a person, whose name is neither, by part of the id. */
export const codeToSend = ({ kind, id, code }: Subject): string => (kind === 'person' ? id.slice(0, 8) : code);

const nameless = (each: Deadline): Deadline => ({ ...each, about: { ...each.about, code: codeToSend(each.about) } });
