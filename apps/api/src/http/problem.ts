import { problemTypes, type ProblemType } from './problem-types.ts';

/** One thing wrong: where (JSON pointer into the body, or the name of a parameter), and what, with the remedy. */
export interface ProblemDetail {
  readonly pointer?: string;
  readonly parameter?: string;
  readonly detail: string;
}

/** The body of an error answer, `application/problem+json` (RFC 9457). */
export interface ProblemBody {
  readonly type: string;
  readonly title: string;
  readonly status: number;
  readonly detail: string;
  readonly errors: readonly ProblemDetail[];
}

/** The problem as it is answered. `type` is stable; its address on this service explains it. */
export function problemBody(type: ProblemType, detail: string, errors: readonly ProblemDetail[] = []): ProblemBody {
  const { status, title } = problemTypes[type];
  return { type: `/problems/${type}`, title, status, detail, errors };
}

/** Ends a request with a problem. */
export class ProblemAnswer extends Error {
  readonly body: ProblemBody;

  constructor(
    type: ProblemType,
    detail: string,
    errors: readonly ProblemDetail[] = [],
    /** Seconds, for 429 and 503. */
    readonly retryAfter?: number,
  ) {
    super(detail);
    this.body = problemBody(type, detail, errors);
  }
}

/** The one answer for what is unknown and for what is somebody else's. */
export const notFound = (): ProblemAnswer => new ProblemAnswer('not-found', 'There is nothing here that you can see.');

export const busy = (detail = 'The service is busy just now. Send the same again.'): ProblemAnswer =>
  new ProblemAnswer('busy', detail, [], 1);
