import { z } from 'zod';
import { nearest } from './nearest.ts';
import { memberProblem, MOST_ERRORS, type MemberProblem, type Path } from './problem.ts';

type Issue = z.core.$ZodIssue;

/** The schemas that may describe the member at a path: several under a union. */
function schemasAt(schema: z.core.$ZodType, path: Path): z.core.$ZodType[] {
  if (schema instanceof z.ZodOptional || schema instanceof z.ZodExactOptional) return schemasAt(schema.unwrap(), path);
  if (schema instanceof z.ZodUnion) return schema.options.flatMap((option) => schemasAt(option, path));
  const [step, ...rest] = path;
  if (step === undefined) return [schema];
  if (schema instanceof z.ZodArray) return schemasAt(schema.element, rest);
  if (schema instanceof z.ZodRecord) return schemasAt(schema.valueType, rest);
  const member = schema instanceof z.ZodObject && typeof step === 'string' ? schema.shape[step] : undefined;
  return member === undefined ? [] : schemasAt(member, rest);
}

/** Names of the members that an object at the path may have. */
function membersAt(schema: z.core.$ZodType, path: Path): string[] {
  return schemasAt(schema, path).flatMap((found) => (found instanceof z.ZodObject ? Object.keys(found.shape) : []));
}

/** The value at a path; undefined where nothing stands there. */
export function valueAt(value: unknown, path: Path): unknown {
  return path.reduce<unknown>(
    (inner, step) =>
      typeof inner === 'object' && inner !== null && Object.hasOwn(inner, step) ? Reflect.get(inner, step) : undefined,
    value,
  );
}

const NOUNS: Readonly<Record<string, string>> = {
  string: 'a text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  array: 'a list',
  object: 'an object with members',
  record: 'an object with members',
};

const noun = (value: unknown): string =>
  value === null ? 'null' : Array.isArray(value) ? 'a list' : (NOUNS[typeof value] ?? typeof value);

/** Members that a branch does not have. */
const straysIn = (issues: readonly Issue[]): number =>
  issues.reduce((n, issue) => n + (issue.code === 'unrecognized_keys' ? issue.keys.length : 0), 0);

/** Likeness of an issue list to what was meant: a branch of the wrong kind altogether comes last. */
function unlike(issues: readonly Issue[]): number {
  const wrongKind = issues.some((issue) => issue.code === 'invalid_type' && issue.path.length === 0);
  const others = issues.filter((issue) => issue.code !== 'unrecognized_keys').length;
  return straysIn(issues) + others + (wrongKind ? 1000 : 0);
}

function missingOrWrongKind(issue: Issue & { readonly code: 'invalid_type' }, value: unknown): string {
  if (value === undefined) return 'is missing: write it';
  // A number with a fraction where a whole one is meant.
  const expected = NOUNS[issue.expected];
  return `must be ${expected ?? issue.expected}, not ${typeof value === 'number' ? String(value) : noun(value)}`;
}

function oneOf(values: readonly unknown[], value: unknown): string {
  if (value === undefined) return `is missing: write one of ${values.join(', ')}`;
  const meant = typeof value === 'string' ? nearest(value, values.map(String)) : null;
  if (values.length === 1) return `must be ${String(values[0])}`;
  return `must be one of ${values.join(', ')}${meant === null ? '' : `: did you mean ${meant}?`}`.replace(/\?$/, '');
}

function bound(issue: Issue & { readonly code: 'too_small' | 'too_big' }): string {
  if (issue.code === 'too_big') return `must not be above ${String(issue.maximum)}`;
  if (issue.origin === 'number' || issue.origin === 'int')
    return issue.minimum === 0 && issue.inclusive !== false
      ? 'must not be negative'
      : `must not be below ${String(issue.minimum)}`;
  return issue.message;
}

/**
 * What a schema found wrong, each as a sentence beside the member's pointer. `path` is where the value stands in the
 * record.
 */
export function explain(
  schema: z.core.$ZodType,
  value: unknown,
  issues: readonly Issue[],
  path: Path,
): MemberProblem[] {
  return issues.flatMap((issue) => explainOne(schema, value, issue, [...path, ...issue.path], issue.path));
}

function explainOne(schema: z.core.$ZodType, whole: unknown, issue: Issue, at: Path, within: Path): MemberProblem[] {
  const value = valueAt(whole, within);
  switch (issue.code) {
    case 'unrecognized_keys': {
      const known = membersAt(schema, within);
      // Each is compared with every known one: of a flood no more than will be told.
      return issue.keys.slice(0, MOST_ERRORS).map((key) => {
        // A member of the other shape of two.
        if (known.includes(key))
          return memberProblem([...at, key], 'does not go with what stands beside it: leave it out');
        const meant = nearest(key, known);
        const remedy = meant === null ? `known here are ${known.join(', ')}` : `did you mean “${meant}”`;
        return memberProblem([...at, key], `is not a member of this record: ${remedy}`);
      });
    }
    case 'invalid_union': {
      // Of two that are as near, the one that has more of the members written.
      const best = [...issue.errors].sort((a, b) => unlike(a) - unlike(b) || straysIn(a) - straysIn(b))[0] ?? [];
      if (best.length === 0 || unlike(best) >= 1000) return [memberProblem(at, unionRemedy(schema, value, within))];
      return best.flatMap((inner) =>
        explainOne(schema, whole, inner, [...at, ...inner.path], [...within, ...inner.path]),
      );
    }
    case 'invalid_type':
      return [memberProblem(at, missingOrWrongKind(issue, value))];
    case 'invalid_value':
      return [memberProblem(at, oneOf(issue.values, value))];
    case 'too_small':
    case 'too_big':
      return [memberProblem(at, bound(issue))];
    default:
      return [memberProblem(at, issue.message)];
  }
}

/** A value that no branch takes: said by the kinds that would be taken. */
function unionRemedy(schema: z.core.$ZodType, value: unknown, within: Path): string {
  if (value === undefined) return 'is missing: write it';
  const kinds = schemasAt(schema, within).map((found) => NOUNS[found._zod.def.type] ?? found._zod.def.type);
  return `must be ${[...new Set(kinds)].join(' or ')}, not ${noun(value)}`;
}
