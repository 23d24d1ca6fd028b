import { parseInstant } from '../calendar/index.ts';
import { checkData } from './checkData.ts';
import { doneOutOfTime } from './doneAt.ts';
import { entryEnvelope } from './envelope.ts';
import { explain } from './explain.ts';
import { limitProblems } from './limits.ts';
import { memberProblem, problem, type RecordProblem } from './problem.ts';

/**
 * What is wrong with an entry of a log that was written elsewhere, or null: the whole of what acceptance asks, with
 * `recordedAt` in place of the clock, the server's own types and sealed members allowed. `recordFromLog` trusts what
 * this software accepted itself; an imported archive comes through here first.
 */
export function checkEntry(parsed: unknown): RecordProblem | null {
  if (typeof parsed !== 'object' || parsed === null || Array.isArray(parsed))
    return problem('malformed', [memberProblem([], 'must be an object with members')]);
  const limits = limitProblems(parsed);
  if (limits.length > 0) return problem('malformed', limits);
  const outer = entryEnvelope().safeParse(parsed);
  if (!outer.success) return problem('malformed', explain(entryEnvelope(), parsed, outer.error.issues, []));
  const finding = checkData('log', outer.data);
  if (finding !== null) return problem(finding.code, finding.errors);
  const outOfTime = doneOutOfTime(outer.data, parseInstant(outer.data.recordedAt) ?? 0);
  return outOfTime.length > 0 ? problem('impossible', outOfTime) : null;
}
