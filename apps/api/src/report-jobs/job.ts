import { z } from 'zod';
import type { Form } from '../reports/index.ts';

/** What a job is to make: a report, its form, and for whom it is drawn. Kept as it was asked. */
export const askedReport = z.object({
  kind: z.string(),
  form: z.enum(['pdf', 'csv', 'json', 'jsonld']) satisfies z.ZodType<Form>,
  language: z.enum(['en', 'es']),
  paper: z.enum(['letter', 'a4']),
  /** Which table as CSV; the first, where left out. */
  table: z.string().optional(),
  parameters: z.record(z.string(), z.unknown()),
  origin: z.string().optional(),
});
export type AskedReport = z.infer<typeof askedReport>;

export const jobState = z.enum(['waiting', 'running', 'done', 'failed', 'cancelled']);
export type JobState = z.infer<typeof jobState>;

const instant = z.date().nullable();

/** SQL for "a person was erased since this report was made": it may hold the name that the log does not open any more. */
export const holdsErased = `EXISTS (
  SELECT FROM log_entry e
   WHERE e.operation_id = report_job.operation_id AND e.type = 'person.erased' AND e.seq >= report_job.log_size)`;

/** A row of `report_job`. */
export const jobRow = z.object({
  job_id: z.string(),
  asked: askedReport,
  state: jobState,
  attempt: z.number(),
  progress: z.number(),
  detail: z.string().nullable(),
  created_at: z.date(),
  started_at: instant,
  ended_at: instant,
  expires_at: instant,
  log_size: z.string().nullable(),
  file_name: z.string().nullable(),
  byte_length: z.string().nullable(),
  sha256: z.instanceof(Buffer).nullable(),
});
export type JobRow = z.infer<typeof jobRow>;

/** A job as its owner sees it. */
export interface JobView {
  readonly jobId: string;
  readonly kind: string;
  readonly form: Form;
  readonly state: JobState;
  /** From 0 to 1. */
  readonly progress: number;
  readonly createdAt: string;
  readonly startedAt: string | null;
  readonly endedAt: string | null;
  /** Why nothing came of it. */
  readonly detail?: string;
  /** What came of it; it is removed at `expiresAt`. */
  readonly result?: {
    readonly href: string;
    readonly fileName: string;
    readonly byteLength: number;
    /** 64 lower-case hexadecimal digits. */
    readonly sha256: string;
    /** How many records the log had. */
    readonly logSize: number | null;
    readonly expiresAt: string;
  };
}

/** The address of a job. */
export const jobAddress = (operationId: string, jobId: string): string =>
  `/api/v1/operations/${operationId}/report-jobs/${jobId}`;

export function viewOf(operationId: string, row: JobRow): JobView {
  const view = {
    jobId: row.job_id,
    kind: row.asked.kind,
    form: row.asked.form,
    state: row.state,
    progress: Math.round(row.progress * 1000) / 1000,
    createdAt: row.created_at.toISOString(),
    startedAt: row.started_at?.toISOString() ?? null,
    endedAt: row.ended_at?.toISOString() ?? null,
    ...(row.detail === null ? {} : { detail: row.detail }),
  };
  if (row.file_name === null || row.byte_length === null || row.sha256 === null || row.expires_at === null) return view;
  return {
    ...view,
    result: {
      href: `${jobAddress(operationId, row.job_id)}/result`,
      fileName: row.file_name,
      byteLength: Number(row.byte_length),
      sha256: row.sha256.toString('hex'),
      logSize: row.log_size === null ? null : Number(row.log_size),
      expiresAt: row.expires_at.toISOString(),
    },
  };
}
