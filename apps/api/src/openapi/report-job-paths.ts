import { newReportJob } from '../controllers/report-jobs.controller.ts';
import type { Route } from './route.ts';
import { listOf, object, schemaOf, text, uuid, whole } from './schemas.ts';

const instant = { type: 'string', format: 'date-time' };
const orNull = (schema: object): object => ({ anyOf: [schema, { type: 'null' }] });
const job = object({
  jobId: uuid,
  kind: text,
  form: { enum: ['pdf', 'csv', 'json', 'jsonld'] },
  state: { enum: ['waiting', 'running', 'done', 'failed', 'cancelled'] },
  progress: { type: 'number', minimum: 0, maximum: 1 },
  createdAt: instant,
  startedAt: orNull(instant),
  endedAt: orNull(instant),
  'detail?': text,
  'result?': object({
    href: text,
    fileName: text,
    byteLength: whole,
    sha256: { type: 'string', pattern: '^[0-9a-f]{64}$' },
    logSize: orNull(whole),
    expiresAt: instant,
  }),
});
const jobs = '/api/v1/operations/{op}/report-jobs';

/** Reports that are made in the background. */
export function reportJobRoutes(): Record<string, Record<string, Route>> {
  return {
    [jobs]: {
      get: { summary: 'Your reports made in the background', answer: object({ jobs: listOf(job) }) },
      post: { summary: 'Asks for a report that takes long', body: schemaOf(newReportJob), answer: job, status: 202 },
    },
    [`${jobs}/{jobId}`]: {
      get: { summary: 'How far a report is', answer: job },
      delete: { summary: 'Cancels a report, or removes one that is made', answer: job },
    },
    [`${jobs}/{jobId}/result`]: {
      get: { summary: 'What came of it, as a file', answer: text, mediaType: 'application/octet-stream' },
    },
  };
}
