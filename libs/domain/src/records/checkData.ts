import { z } from 'zod';
import { recordTypes, schemaOf, typeEntry } from './catalogue.ts';
import { explain } from './explain.ts';
import { nearest } from './nearest.ts';
import { memberProblem, type MemberProblem, type Path, type RecordProblem } from './problem.ts';

/** Whose record it is: a client may not write the server's types. */
export type Writer = 'client' | 'log';

/** What is wrong with a record, or null. */
export type Finding = { readonly code: RecordProblem['code']; readonly errors: readonly MemberProblem[] } | null;

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
export function checkData(
  writer: Writer,
  { type, version, data }: { readonly type: string; readonly version: number; readonly data: unknown },
  path: Path = [],
): Finding {
  const entry = typeEntry(type);
  if (entry === undefined) return unknownType(type, path);
  if (entry.server === true && writer === 'client') {
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
  return checkCorrection(writer, type, data, [...path, 'data']);
}

const FINAL_REMEDY: Readonly<Record<string, string>> = {
  'ruleBook.adopted': 'adopt the rule book again instead',
  'batch.reviewed': 'review the batch again instead',
  'person.erased': 'what was erased does not come back',
};

/** Corrections: the type must exist and allow them, and corrected data must be valid for it. */
function checkCorrection(writer: Writer, type: string, data: unknown, path: Path): Finding {
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
  if (type === 'record.struck') return null;
  return checkData(writer, { type: correction.type, version: correction.version ?? 1, data: correction.data }, path);
}
