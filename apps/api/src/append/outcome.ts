import { problemBody, type ProblemBody, type ProblemDetail, type ProblemType } from '../http/index.ts';

/** Why one record was not taken; `code` is the last part of `type`, for programs. */
export type Refusal = ProblemBody & { readonly code: ProblemType };

/** What became of one record of a request. */
export type RecordResult =
  | {
      readonly id: string | null;
      readonly status: 'recorded' | 'duplicate';
      readonly seq: number;
      readonly recordedAt: string;
    }
  | { readonly id: string | null; readonly status: 'refused'; readonly problem: Refusal };

/** What became of a request: a result a record, in order, and the log as it is now. */
export interface Appended {
  readonly results: readonly RecordResult[];
  readonly log: { readonly size: number; readonly root: string };
}

export function refused(
  id: string | null,
  code: ProblemType,
  detail: string,
  errors: readonly ProblemDetail[] = [],
): RecordResult & { readonly status: 'refused' } {
  return { id, status: 'refused', problem: { ...problemBody(code, detail, errors), code } };
}
