import { Controller, Delete, Get, HttpCode, Param, Post, Req, Res, UseGuards } from '@nestjs/common';
import { reportKind } from '@furrowmark/reports';
import type { Request, Response } from 'express';
import { z } from 'zod';
import { CallingMember, OfOperation, type Member } from '../access/index.ts';
import { codeOf } from '../error-code.ts';
import { bodyOf, JsonBody, notFound, pointerOf, ProblemAnswer, uuidOf } from '../http/index.ts';
import { jobAddress, ReportJobs, type JobView } from '../report-jobs/index.ts';
import { forms } from '../reports/index.ts';
import { formsOf } from './reports.controller.ts';

export const newReportJob = z.strictObject({
  /** A kind of report, as `GET …/reports` lists them. */
  kind: z.string().max(100),
  form: z.enum(['pdf', 'csv', 'json', 'jsonld']).default('pdf'),
  language: z.enum(['en', 'es']).optional(),
  paper: z.enum(['letter', 'a4']).default('letter'),
  /** Which table as CSV; the first, where left out. */
  table: z.string().max(100).optional(),
  /** The kind's own: `from`, `to`, `batch` … */
  parameters: z.record(z.string().max(100), z.unknown()).default({}),
});

/**
 * Reports that take long: asked for here, made in the background, fetched when they are there. A job is its asker's:
 * to everybody else in the operation it is as unknown as one that does not exist.
 */
@Controller('api/v1/operations/:operationId/report-jobs')
@UseGuards(OfOperation)
export class ReportJobsController {
  constructor(private readonly jobs: ReportJobs) {}

  @Get()
  async list(@CallingMember() member: Member): Promise<object> {
    return { jobs: await this.jobs.list(member) };
  }

  @Post()
  @HttpCode(202)
  async ask(
    @CallingMember() member: Member,
    @JsonBody() body: unknown,
    @Req() request: Request,
    @Res({ passthrough: true }) response: Response,
  ): Promise<JobView> {
    const { kind, form, language, paper, table, parameters } = bodyOf(newReportJob, body);
    checked(kind, form, parameters);
    const spoken = language ?? (request.acceptsLanguages('en', 'es') === 'es' ? 'es' : 'en');
    const origin = `${request.protocol}://${request.host}`;
    const named = table === undefined ? {} : { table };
    const job = await this.jobs.ask(member, { kind, form, paper, parameters, language: spoken, origin, ...named });
    response.setHeader('Location', jobAddress(member.operationId, job.jobId));
    return job;
  }

  @Get(':jobId')
  async one(@CallingMember() member: Member, @Param('jobId') text: string): Promise<JobView> {
    return found(await this.jobs.find(member, idOf(text)));
  }

  /** Cancels a job that waits or runs; removes one that has ended, its result with it. */
  @Delete(':jobId')
  async end(@CallingMember() member: Member, @Param('jobId') text: string): Promise<JobView> {
    return found(await this.jobs.end(member, idOf(text)));
  }

  /** The file. A download that broke off goes on where it stopped (Range, RFC 9110 §14). */
  @Get(':jobId/result')
  async result(
    @CallingMember() member: Member,
    @Param('jobId') text: string,
    @Res() response: Response,
  ): Promise<void> {
    const { view, path } = found(await this.jobs.result(member, idOf(text)));
    const { result } = view;
    if (result === undefined) {
      const detail = view.detail ?? 'It is not made yet. Ask for the job until its state is `done`.';
      throw new ProblemAnswer('conflict', `The job is ${view.state}. ${detail}`);
    }
    response.setHeader('Content-Disposition', `attachment; filename="${result.fileName}"`);
    response.setHeader('Repr-Digest', `sha-256=:${Buffer.from(result.sha256, 'hex').toString('base64')}:`);
    response.type(forms[view.form]);
    await new Promise<void>((sent, failed) => {
      const etag = `"${result.sha256}"`;
      response.setHeader('ETag', etag);
      response.sendFile(
        path,
        { etag: false, lastModified: false, cacheControl: false, dotfiles: 'allow' },
        (error: unknown) => {
          if (error === undefined || error === null || response.headersSent) sent();
          else failed(codeOf(error) === 'ENOENT' ? notFound() : error);
        },
      );
    });
  }
}

/** Refuses what no report can be made of, before it waits in the queue. */
function checked(name: string, form: keyof typeof forms, parameters: Readonly<Record<string, unknown>>): void {
  const kind = reportKind(name);
  if (kind === undefined || !formsOf(kind).includes(form)) {
    const detail = kind === undefined ? 'must be a kind of report' : `must be one of ${formsOf(kind).join(', ')}`;
    const pointer = kind === undefined ? '/kind' : '/form';
    throw new ProblemAnswer('invalid-body', 'There is no such report.', [{ pointer, detail }]);
  }
  const parsed = kind.parameters.safeParse(parameters);
  if (parsed.success) return;
  throw new ProblemAnswer(
    'invalid-body',
    'The parameters are not as this report takes them.',
    parsed.error.issues.map(({ path, message }) => ({ pointer: pointerOf(['parameters', ...path]), detail: message })),
  );
}

function idOf(text: string): string {
  const id = uuidOf(text);
  if (id === null) throw notFound();
  return id;
}

function found<T extends object>(job: T | null): T {
  if (job === null) throw notFound();
  return job;
}
