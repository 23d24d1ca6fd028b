import { z } from 'zod';
import type { Instant } from '../facts/time.ts';
import { recordTypes, schemaOf, typeEntry } from './catalogue.ts';
import { doneOutOfTime } from './doneAt.ts';
import { explain } from './explain.ts';
import { personId, recordId } from './ids.ts';
import { limitProblems } from './limits.ts';
import { instant, minutes } from './members.ts';
import { nearest } from './nearest.ts';
import { memberProblem, problem, type MemberProblem, type Path, type RecordProblem } from './problem.ts';
import type { Draft } from './record.ts';
import { isSealed, sealedIn } from './sealed.ts';
import { upcast } from './upcast.ts';

const envelope = z.strictObject({
  id: recordId,
  type: z.string(),
  version: z.number().int().min(1),
  occurredAt: instant,
  plusMinusMinutes: minutes.optional(),
  enteredAt: instant.optional(),
  performedBy: personId.optional(),
  origin: z.enum(['observed', 'fromMemory', 'fromPaper', 'instrument']).optional(),
  data: z.record(z.string(), z.unknown()),
});

/** The members of a record that its writer sets, as they are sent. */
export type ClientMembers = Readonly<z.output<typeof envelope>>;

/** Names of the members that the writer sets. */
const CLIENT = Object.keys(envelope.shape);
const SERVER = new Set(['operationId', 'seq', 'recordedAt', 'recordedBy']);

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

/** What stops a record before its payload is looked at, or while. */
type Finding = { readonly code: RecordProblem['code']; readonly errors: readonly MemberProblem[] } | null;

function serverMembers(input: object): MemberProblem[] {
  return Object.keys(input)
    .filter((name) => SERVER.has(name))
    .map((name) => memberProblem([name], 'is set by the server: leave it out'));
}

function unknownType(type: string, path: Path): Finding {
  const meant = nearest(type, recordTypes);
  const remedy = meant === null ? 'see the list of record types' : `did you mean ${meant}`;
  return {
    code: 'type-unknown',
    errors: [memberProblem([...path, 'type'], `names no record type (${type.slice(0, 80)}): ${remedy}`)],
  };
}

/** Whether an issue is about what cannot be, not about form: a negative number, an end before its start. */
const saysImpossible = (issue: z.core.$ZodIssue): boolean =>
  issue.code === 'custom'
    ? issue.params?.['impossible'] === true
    : issue.code === 'too_small' && issue.origin === 'number';

/** What is wrong with the payload of a record of that type and version; amendments are followed inwards. */
function checkData(type: string, version: number, data: unknown, path: Path): Finding {
  const entry = typeEntry(type);
  if (entry === undefined) return unknownType(type, path);
  if (entry.server === true) {
    const errors = [memberProblem([...path, 'type'], `“${type}” is written by the server only: do not send it`)];
    return { code: 'not-permitted', errors };
  }
  const schema = schemaOf(entry, version);
  if (schema === undefined) {
    const why =
      version > entry.version
        ? `${String(version)} of ${type} is newer than this server knows (${String(entry.version)}): update the server`
        : `${String(version)} of ${type} is no longer accepted: update the app`;
    return { code: 'version-unknown', errors: [memberProblem([...path, 'version'], why)] };
  }
  const result = schema.safeParse(data);
  if (!result.success) {
    const issues = result.error.issues;
    const impossible = issues.every(saysImpossible);
    return { code: impossible ? 'impossible' : 'malformed', errors: explain(schema, data, issues, [...path, 'data']) };
  }
  return checkCorrection(type, data, [...path, 'data']);
}

const FINAL_REMEDY: Readonly<Record<string, string>> = {
  'ruleBook.adopted': 'adopt the rule book again instead',
  'batch.reviewed': 'review the batch again instead',
  'person.erased': 'what was erased does not come back',
};

/** Corrections: the type must exist and allow them, and corrected data must be valid for it. */
function checkCorrection(type: string, data: unknown, path: Path): Finding {
  if (type !== 'record.amended' && type !== 'record.struck') return null;
  const correction = z
    .object({ type: z.string(), version: z.number().optional(), data: z.unknown().optional() })
    .parse(data);
  const entry = typeEntry(correction.type);
  if (entry === undefined) return unknownType(correction.type, path);
  if (entry.final === true) {
    const remedy = FINAL_REMEDY[correction.type] ?? 'it is the log’s own and only followed';
    const verb = type === 'record.amended' ? 'amended' : 'struck';
    const message = `names a record (${correction.type}) that is never ${verb}: ${remedy}`;
    return { code: 'not-permitted', errors: [memberProblem([...path, 'type'], message)] };
  }
  return type === 'record.struck' ? null : checkData(correction.type, correction.version ?? 1, correction.data, path);
}

/** The seal is the server's to make: a client sends the value. */
function sentSealed(sent: ClientMembers): MemberProblem[] {
  return sealedIn(sent)
    .filter((path) => isSealed(path.reduce<unknown>(memberOf, sent)))
    .map((path) => memberProblem([...path, 'sealed'], 'is made by the server: send the name itself'));
}
const memberOf = (value: unknown, step: PropertyKey): unknown =>
  typeof value === 'object' && value !== null ? Reflect.get(value, step) : undefined;

/**
 * Reads one record as a client sends it. It is refused only where it is malformed, impossible in itself, or of a kind
 * that clients may not write; never for what other records say or for breaking a rule. `now` is the server's clock.
 */
export function parseDraft(input: unknown, { now }: { readonly now: Instant }): Parsed {
  if (typeof input !== 'object' || input === null || Array.isArray(input))
    return refused('malformed', [memberProblem([], 'must be an object with members')]);
  const limits = limitProblems(input);
  if (limits.length > 0) return refused('malformed', limits);
  const server = serverMembers(input);
  if (server.length > 0) return refused('not-permitted', server);
  const outer = envelope.safeParse(input);
  if (!outer.success) return refused('malformed', explain(envelope, input, outer.error.issues, []));
  const sent = outer.data;
  const finding = checkData(sent.type, sent.version, sent.data, []);
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

/** Exactly the members of an entry (or draft) that its writer set: what "same content" compares. */
export function clientMembers(entry: object): Readonly<Record<string, unknown>> {
  return Object.fromEntries(
    Object.entries(entry).filter(([name, value]) => CLIENT.includes(name) && value !== undefined),
  );
}
