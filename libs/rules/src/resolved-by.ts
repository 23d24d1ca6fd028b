import { compareCurrent, openSeason, type Instant, type Season } from '@furrowmark/domain';
import { judgeSubject } from './engine/evaluate.ts';
import type { Outcome } from './outcome.ts';
import { stillStands } from './standing.ts';

/** Corrections that count: those that were not struck themselves. */
export const correctionsIn = (season: Season) => [
  ...season.ofType('record.amended'),
  ...season.ofType('record.struck'),
];

const isCorrection = (type: string): boolean => type === 'record.amended' || type === 'record.struck';

/**
 * The correction without which a finding would still stand. Where exactly one corrects a record that the finding was
 * made of, it is that one; otherwise corrections are taken back, the last first, until the finding stands again. Those of
 * other records are asked one by one where it does not; where each of several is enough, it is the last of its own
 * records. Corrections that were struck themselves are none. null where there is none.
 */
export function correctionThatResolved(season: Season, first: Outcome, now: Instant): string | null {
  const all = correctionsIn(season).sort(compareCurrent);
  const used = new Set(first.recordIds);
  const direct = all.filter((each) => used.has(each.data.recordId));
  const [only] = direct;
  if (only !== undefined && direct.length === 1) return only.id;
  const written = season.written();
  const struck = written.filter(({ id, type }) => isCorrection(type) && season.record(id)?.state === 'struck');
  const standsWithout = (taken: readonly string[]): boolean => {
    const left = new Set([...struck.map(({ id }) => id), ...taken]);
    const without = openSeason(written.filter((record) => !left.has(record.id)));
    const outcome = judgeSubject(without, first.ruleId, first.about, now);
    return outcome !== null && stillStands(first, outcome);
  };
  const taken: string[] = [];
  for (const { id } of (direct.length > 0 ? direct : all).toReversed()) {
    taken.push(id);
    if (standsWithout(taken)) return id;
  }
  const other = all.toReversed().find(({ id }) => !taken.includes(id) && standsWithout([id]));
  return other?.id ?? direct.at(-1)?.id ?? null;
}
