import { openSeason, utcText, type Instant, type Season } from '@furrowmark/domain';
import { Evaluation } from './engine/evaluation.ts';
import type { Judged } from './engine/judged.ts';
import { everySubject } from './engine/subjects.ts';
import { correctionsIn, correctionThatResolved } from './resolved-by.ts';
import { isFinding, stillStands } from './standing.ts';
import type { Outcome } from './outcome.ts';

/** What the operation wrote to a finding. */
export interface Answer {
  readonly recordId: string;
  readonly answeredAt: string;
  readonly answeredBy: string;
  readonly cause: string;
  readonly action: string;
  readonly state: 'open' | 'done' | 'accepted';
}

/**
 * An outcome that asks for an answer: broken, caution or unknown. A deadline (`due`) is none.
 * `open`: stands, not answered, or answered as still open. `answered`: answered as done or accepted, or answered and
 * no longer standing. `resolved`: stood on the records as first written, not on them as amended or struck; a broken
 * limit that an amendment brings back inside, though past the advised value, is resolved too.
 */
export interface Finding extends Outcome {
  readonly state: 'open' | 'answered' | 'resolved';
  /** Whether it holds on the records as they stand now. */
  readonly standing: boolean;
  /** When it came to be so; null where its records do not tell. */
  readonly since: string | null;
  /** The amendment or strike that resolved it. */
  readonly resolvedBy?: string;
  readonly answers: readonly Answer[];
}

/** Answers by the finding they name, in the order of records. */
export function answersOf(season: Season): ReadonlyMap<string, readonly Answer[]> {
  const found = new Map<string, Answer[]>();
  for (const record of season.answers()) {
    const { findingId, cause, action, state } = record.data;
    const answer: Answer = {
      recordId: record.id,
      answeredAt: record.occurredAt,
      answeredBy: record.performedBy ?? record.recordedBy,
      cause,
      action,
      state,
    };
    const others = found.get(findingId);
    if (others === undefined) found.set(findingId, [answer]);
    else others.push(answer);
  }
  return found;
}

/** When an outcome came to be: as the rule says, else when the last of its records happened. */
export function sinceOf(season: Season, { outcome, since }: Judged): Instant | null {
  if (since !== undefined) return since;
  let last: Instant | null = null;
  for (const id of outcome.recordIds) {
    const at = season.record(id)?.at.at;
    if (at !== undefined && (last === null || at > last)) last = at;
  }
  return last;
}

function judgeEverything(season: Season, now: Instant): Judged[] {
  return new Evaluation(season, now).judgeAll(everySubject(season));
}

/** The season as its records were first written, none amended or struck. */
export const asFirstWritten = (season: Season): Season =>
  openSeason(season.written().filter(({ type }) => type !== 'record.amended' && type !== 'record.struck'));

const settles = (answers: readonly Answer[]): boolean => {
  const last = answers.at(-1);
  return last !== undefined && last.state !== 'open';
};

function finding(
  season: Season,
  judged: Judged,
  answers: readonly Answer[],
  standing: boolean,
  resolvedBy: string | null,
): Finding {
  const since = sinceOf(season, judged);
  const state = resolvedBy !== null ? 'resolved' : standing && !settles(answers) ? 'open' : 'answered';
  return {
    ...judged.outcome,
    state,
    standing,
    since: since === null ? null : utcText(since),
    ...(resolvedBy === null ? {} : { resolvedBy }),
    answers,
  };
}

/** Every finding of the operation: a function of its records and of now. Oldest first. */
export function findings(season: Season, now: Instant): Finding[] {
  const answers = answersOf(season);
  const none: readonly Answer[] = [];
  const current = judgeEverything(season, now);
  const first = correctionsIn(season).length > 0 ? asFirstWritten(season) : null;
  const atFirst = new Map(
    first === null ? [] : judgeEverything(first, now).map((judged) => [judged.outcome.findingId, judged]),
  );
  const found: Finding[] = [];
  const told = new Set<string>();
  for (const judged of current) {
    const id = judged.outcome.findingId;
    if (!stillStands(atFirst.get(id)?.outcome, judged.outcome)) continue;
    told.add(id);
    found.push(finding(season, judged, answers.get(id) ?? none, true, null));
  }
  for (const [id, judged] of atFirst) {
    if (first === null || !isFinding(judged.outcome) || told.has(id)) continue;
    told.add(id);
    const by = correctionThatResolved(season, judged.outcome, now);
    found.push(finding(first, judged, answers.get(id) ?? none, false, by));
  }
  for (const judged of current) {
    const id = judged.outcome.findingId;
    const written = answers.get(id);
    if (written === undefined || told.has(id)) continue;
    found.push(finding(season, judged, written, false, null));
  }
  return found.sort((a, b) => order(a.since, b.since) || order(a.findingId, b.findingId));
}

const order = (a: string | null, b: string | null): number => (a === b ? 0 : (a ?? '') < (b ?? '') ? -1 : 1);
