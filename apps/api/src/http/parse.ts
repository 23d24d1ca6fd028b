import { z } from 'zod';
import { ProblemAnswer, type ProblemDetail } from './problem.ts';

/** A JSON pointer (RFC 6901) from a path. */
export function pointerOf(path: readonly PropertyKey[]): string {
  return path.map((step) => `/${String(step).replaceAll('~', '~0').replaceAll('/', '~1')}`).join('');
}

/** What zod found wrong, each with its place. */
export function issuesOf(error: z.ZodError, at: readonly PropertyKey[] = []): ProblemDetail[] {
  return error.issues.map((issue) => ({ pointer: pointerOf([...at, ...issue.path]), detail: issue.message }));
}

const unfit = (errors: ProblemDetail[]) =>
  new ProblemAnswer('invalid-body', 'The body is not as this address takes it.', errors);

/** The body as the schema gives it, its texts as they came; 422 with pointers where it does not fit. */
export function shapeOf<S extends z.ZodType>(schema: S, body: unknown): z.output<S> {
  const parsed = schema.safeParse(body);
  if (parsed.success) return parsed.data;
  throw unfit(issuesOf(parsed.error));
}

/** The body as the schema gives it, with texts that can be kept; 422 with pointers where it does not fit. */
export function bodyOf<S extends z.ZodType>(schema: S, body: unknown): z.output<S> {
  const shape = shapeOf(schema, body);
  const places = unstorableIn(body, []);
  if (places.length === 0) return shape;
  throw unfit(places.map((place) => ({ pointer: pointerOf(place), detail: unstorable })));
}

const unstorable = 'must be text without a NUL character and without half a character';

/** Where texts stand that no database keeps: with NUL, or with half of a pair (a lone surrogate). */
function unstorableIn(value: unknown, at: readonly PropertyKey[]): (readonly PropertyKey[])[] {
  if (typeof value === 'string') return value.includes('\0') || !value.isWellFormed() ? [at] : [];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([name, member]) => unstorableIn(member, [...at, name]));
}

/** The query's parameters as the schema gives them; 400 with their names where they do not fit. */
export function queryOf<S extends z.ZodType>(schema: S, query: unknown): z.output<S> {
  const parsed = schema.safeParse(query);
  const places = unstorableIn(query, []).map((place) => String(place[0] ?? ''));
  if (places.length > 0) {
    const errors = places.map((parameter) => ({ parameter, detail: unstorable }));
    throw new ProblemAnswer('invalid-parameter', `Not valid: ${places.join(', ')}.`, errors);
  }
  if (parsed.success) return parsed.data;
  const errors = parsed.error.issues.map((issue) => ({
    parameter: String(issue.path[0] ?? (issue.code === 'unrecognized_keys' ? issue.keys[0] : '')),
    detail: issue.message,
  }));
  const names = [...new Set(errors.map((error) => error.parameter))].filter(Boolean).join(', ');
  throw new ProblemAnswer('invalid-parameter', `Not valid: ${names || 'the query'}.`, errors);
}

/** A UUID in the path; what is none is as unknown as one that nobody gave. */
export function uuidOf(text: unknown): string | null {
  const lower = typeof text === 'string' ? text.toLowerCase() : '';
  return /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/.test(lower) ? lower : null;
}
