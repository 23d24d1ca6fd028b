import type { Instant } from '../facts/time.ts';
import { typeEntry } from './catalogue.ts';
import { checkData } from './checkData.ts';
import { doneOutOfTime } from './doneAt.ts';
import { envelope, serverMembers, type ClientMembers } from './envelope.ts';
import { explain, valueAt } from './explain.ts';
import { limitProblems } from './limits.ts';
import { memberProblem, problem, type MemberProblem, type RecordProblem } from './problem.ts';
import type { Draft } from './record.ts';
import { isSealed, sealedIn } from './sealed.ts';
import { upcast } from './upcast.ts';

export type Parsed =
  | {
      readonly ok: true;
      /** Upcast to the newest version of its type: what to judge. */
      readonly draft: Draft;
      /** Exactly as sent: what to record. */
      readonly sent: ClientMembers;
    }
  | { readonly ok: false; readonly problem: RecordProblem };

const refused = (code: RecordProblem['code'], errors: readonly MemberProblem[]): Parsed => ({
  ok: false,
  problem: problem(code, errors),
});

function sentServerMembers(input: object): MemberProblem[] {
  return Object.keys(input)
    .filter((name) => serverMembers().has(name))
    .map((name) => memberProblem([name], 'is set by the server: leave it out'));
}

/** The seal is the server's to make: a client sends the value. */
function sentSealed(sent: ClientMembers): MemberProblem[] {
  return sealedIn(sent)
    .filter((path) => isSealed(valueAt(sent, path)))
    .map((path) => memberProblem([...path, 'sealed'], 'is made by the server: send the name itself'));
}

/**
 * Reads one record as a client sends it. It is refused only where it is malformed, impossible in itself, or of a kind
 * that clients may not write; never for what other records say or for breaking a rule. `now` is the server's clock.
 */
export function parseDraft(input: unknown, { now }: { readonly now: Instant }): Parsed {
  if (typeof input !== 'object' || input === null || Array.isArray(input))
    return refused('malformed', [memberProblem([], 'must be an object with members')]);
  const limits = limitProblems(input);
  if (limits.length > 0) return refused('malformed', limits);
  const server = sentServerMembers(input);
  if (server.length > 0) return refused('not-permitted', server);
  const outer = envelope().safeParse(input);
  if (!outer.success) return refused('malformed', explain(envelope(), input, outer.error.issues, []));
  const sent = outer.data;
  const finding = checkData('client', sent);
  if (finding !== null) return refused(finding.code, finding.errors);
  const sealed = sentSealed(sent);
  if (sealed.length > 0) return refused('not-permitted', sealed);
  const outOfTime = doneOutOfTime(sent, now);
  if (outOfTime.length > 0) return refused('impossible', outOfTime);
  return { ok: true, draft: newest(sent), sent };
}

function newest(sent: ClientMembers): Draft {
  const version = typeEntry(sent.type)?.version ?? sent.version;
  const data = version === sent.version ? sent.data : upcast(sent.type, sent.version, sent.data);
  const draft: object = version === sent.version ? sent : { ...sent, version, data };
  return draft as Draft; // eslint-disable-line @typescript-eslint/consistent-type-assertions -- the parse boundary: type, version and data were checked together above
}
