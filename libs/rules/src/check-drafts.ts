import {
  batchesNamed,
  mentions,
  operationId,
  utcText,
  type Draft,
  type Instant,
  type LogRecord,
  type OpenSeason,
  type Season,
} from '@furrowmark/domain';
import { subjectsOfBatch } from './engine/batch-subjects.ts';
import { Evaluation } from './engine/evaluation.ts';
import { anySubject, together, type Subjects } from './engine/subjects.ts';
import type { Outcome, SubjectKind } from './outcome.ts';

const nobody = '00000000-0000-0000-0000-000000000000';
const open: ReadonlySet<string> = new Set(['broken', 'caution', 'due', 'unknown']);

/** The drafts as the log would hold them were they sent now. */
function asRecords(season: Season, drafts: readonly Draft[], now: Instant): LogRecord[] {
  let known: LogRecord['operationId'] | undefined;
  for (const record of season.records()) {
    known = record.operationId;
    break;
  }
  const operation = known ?? operationId.parse(nobody);
  return drafts.map((draft, i) => ({
    ...draft,
    operationId: operation,
    seq: season.size + i,
    recordedAt: utcText(now),
    recordedBy: nobody,
  }));
}

/** Everything that the drafts can change: what they name, and whatever bears on the batches that they or those touch. */
function touched(season: Season, drafts: readonly Draft[], evaluation: Evaluation): Subjects {
  const ids = new Set(drafts.flatMap((draft) => mentions(draft)));
  for (const id of [...ids]) {
    // A correction reaches what the record it corrects names.
    const record = season.record(id);
    if (record !== undefined) for (const each of mentions(record)) ids.add(each);
  }
  const batchIds = new Set(drafts.flatMap((draft) => batchesNamed(draft)));
  for (const id of ids) {
    const draw = season.draw(id);
    if (draw !== undefined) batchIds.add(draw.batch.id);
    if (season.batch(id) !== undefined) batchIds.add(id);
  }
  const all = new Map<string, { readonly kind: SubjectKind; readonly subjects: Subjects }>();
  for (const id of ids) {
    for (const found of anySubject(season, id)) all.set(`${found.kind}|${id}`, found);
  }
  const batches = [...batchIds].map((id) => season.batch(id)).filter((batch) => batch !== undefined);
  return [
    ...batches.map((batch) => subjectsOfBatch(season, batch, evaluation.bench.reach)),
    ...[...all.values()].map(({ subjects }) => subjects),
  ].reduce(together, {});
}

/**
 * What these records would break or come near, were they recorded: outcomes that ask for something and differ from
 * what holds without them. Nothing is recorded.
 */
export function checkDrafts(season: OpenSeason, drafts: readonly Draft[], now: Instant): Outcome[] {
  const before = new Evaluation(season, now);
  const standing = new Map(
    before.judgeAll(touched(season, drafts, before)).map(({ outcome }) => [outcome.findingId, outcome]),
  );
  const judged = season.supposing(asRecords(season, drafts, now), () => {
    const evaluation = new Evaluation(season, now, { supposed: true });
    return evaluation.judgeAll(touched(season, drafts, evaluation)).map(({ outcome }) => outcome);
  });
  const seen = new Set<string>();
  return judged.filter((outcome) => {
    const { findingId } = outcome;
    if (!open.has(outcome.outcome) || seen.has(findingId)) return false;
    seen.add(findingId);
    const held = standing.get(findingId);
    return held === undefined || held.outcome !== outcome.outcome || held.message !== outcome.message;
  });
}
