import { openSeason, type CurrentRecord, type Instant, type Season } from '@furrowmark/domain';
import { judgeSubject } from './engine/evaluate.ts';
import type { Outcome } from './outcome.ts';
import { stillStands } from './standing.ts';

function targetOf(correction: CurrentRecord): string | null {
  return correction.type === 'record.amended' || correction.type === 'record.struck' ? correction.data.recordId : null;
}

/**
 * The correction without which a finding would still stand. Where exactly one corrects a record that the finding was
 * made of, it is that one; otherwise corrections are taken back, the last first, until the finding stands again.
 * null where none of them alone is the reason.
 */
export function correctionThatResolved(season: Season, first: Outcome, now: Instant): string | null {
  const all = [...season.ofType('record.amended'), ...season.ofType('record.struck')]
    .filter((each) => each.state !== 'struck')
    .sort((a, b) => a.at.at - b.at.at || (a.id < b.id ? -1 : 1));
  const used = new Set(first.recordIds);
  const direct = all.filter((each) => used.has(targetOf(each) ?? ''));
  const [only] = direct;
  if (only !== undefined && direct.length === 1) return only.id;
  const taken = new Set<string>();
  const written = season.written();
  for (const correction of [...(direct.length > 0 ? direct : all)].reverse()) {
    taken.add(correction.id);
    const without = openSeason(written.filter((record) => !taken.has(record.id)));
    const outcome = judgeSubject(without, first.ruleId, first.about, now);
    if (outcome !== null && stillStands(first, outcome)) return correction.id;
  }
  return direct.at(-1)?.id ?? all.at(-1)?.id ?? null;
}
