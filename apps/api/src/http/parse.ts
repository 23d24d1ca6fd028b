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

/** The body as the schema gives it; 422 with pointers where it does not fit. */
export function bodyOf<S extends z.ZodType>(schema: S, body: unknown): z.output<S> {
  const parsed = schema.safeParse(body);
  if (parsed.success) return parsed.data;
  throw new ProblemAnswer('invalid-body', 'The body is not as this address takes it.', issuesOf(parsed.error));
}

/** The query's parameters as the schema gives them; 400 with their names where they do not fit. */
export function queryOf<S extends z.ZodType>(schema: S, query: unknown): z.output<S> {
  const parsed = schema.safeParse(query);
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
