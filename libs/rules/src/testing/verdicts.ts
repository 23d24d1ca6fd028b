import type { Instant, OpenSeason } from '@furrowmark/domain';
import { evaluate, judgeBatch } from '../engine/evaluate.ts';
import type { Choice } from '../engine/evaluation.ts';
import type { Outcome, SubjectKind } from '../outcome.ts';
import { id, instant } from './season.ts';

const late = instant('2026-12-31 00:00');

/** What one rule says of a subject, by the name a test gave it; `kind` where the rule speaks of several kinds. */
export function outcomeOf(
  season: OpenSeason,
  ruleId: string,
  name: string,
  { now = late, kind }: { readonly now?: Instant | undefined; readonly kind?: SubjectKind } = {},
  choice?: Choice,
): Outcome {
  const all = evaluate(season, now, choice).filter(
    (outcome) => outcome.ruleId === ruleId && (kind === undefined || outcome.about.kind === kind),
  );
  const found = all.find((outcome) => outcome.about.id === id(name) || outcome.about.kind === 'operation');
  if (found === undefined)
    throw new Error(`${ruleId} says nothing of ${name}; it speaks of ${all.map((o) => o.about.code).join(', ')}`);
  return found;
}

/** What one rule says of the draws of a batch, in order. */
export function drawOutcomes(season: OpenSeason, ruleId: string, batch: string, now: Instant = late): Outcome[] {
  return judgeBatch(season, id(batch), now).filter(
    (outcome) => outcome.ruleId === ruleId && outcome.about.kind === 'draw',
  );
}

/** The verdict of the only draw. */
export const drawVerdict = (season: OpenSeason, ruleId: string, batch: string, now?: Instant): string =>
  drawOutcomes(season, ruleId, batch, now)[0]?.outcome ?? 'nothing said';
