import { listOf, memberOf, numberOf, textOf } from '../../http/read.ts';

/** A report that is made in the background. */
export interface ReportJob {
  readonly jobId: string;
  readonly kind: string;
  readonly form: string;
  readonly state: string;
  /** From 0 to 1. */
  readonly progress: number;
  readonly detail: string | null;
  readonly fileName: string | null;
}

export const jobsIn = (body: unknown): readonly ReportJob[] =>
  listOf(body, 'jobs').map((each) => ({
    jobId: textOf(each, 'jobId') ?? '',
    kind: textOf(each, 'kind') ?? '',
    form: textOf(each, 'form') ?? '',
    state: textOf(each, 'state') ?? '',
    progress: numberOf(each, 'progress') ?? 0,
    detail: textOf(each, 'detail'),
    fileName: textOf(memberOf(each, 'result'), 'fileName'),
  }));

export const isUnderWay = ({ state }: ReportJob): boolean => state === 'waiting' || state === 'running';
