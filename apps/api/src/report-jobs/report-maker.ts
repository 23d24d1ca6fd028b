import { Injectable } from '@nestjs/common';
import { z } from 'zod';
import { Clock } from '../clock.ts';
import { OperationScope } from '../database/index.ts';
import { Reports, reportFile, ReportNotMade } from '../reports/index.ts';
import { holdsErased, jobRow, type JobRow } from './job.ts';
import { ReportFiles } from './report-files.ts';
import { ReportQueue, type JobPointer } from './report-queue.ts';

/** How often a job is begun at most: one that takes the process with it each time must not do so for ever. */
const mostAttempts = 3;
/** How long a result is kept. */
const keptFor = 7 * 86_400_000;
/** How often progress is written down, and a cancelling noticed that another process took. */
const told = 500;
const hour = 3_600_000;

const rows = z.array(jobRow);
const changed = z.tuple([z.array(z.unknown()), z.number()]);
const returned = z.tuple([rows, z.number()]);
const removed = z.tuple([z.array(z.object({ job_id: z.string(), attempt: z.number() })), z.number()]);
const ids = z.array(z.object({ job_id: z.string() }));

/**
 * Makes the reports that wait in the queue. The row says which attempt counts: whatever an earlier one still does, only
 * the last one's file becomes the result, once.
 */
@Injectable()
export class ReportMaker {
  #sweeping: NodeJS.Timeout | null = null;
  #swept: Promise<void> | null = null;

  constructor(
    private readonly queue: ReportQueue,
    private readonly reports: Reports,
    private readonly files: ReportFiles,
    private readonly scope: OperationScope,
    private readonly clock: Clock,
  ) {}

  /** Works from now on, and removes old results every hour. Only a process that serves does. */
  async start(): Promise<void> {
    await this.queue.start((job, signal) => this.#make(job, signal));
    const sweep = (): void => {
      this.#swept ??= this.sweep()
        .catch((error: unknown) => process.emitWarning(String(error), { code: 'FURROWMARK_REPORTS' }))
        .finally(() => (this.#swept = null));
    };
    sweep();
    this.#sweeping = setInterval(sweep, hour).unref();
  }

  async close(): Promise<void> {
    if (this.#sweeping !== null) clearInterval(this.#sweeping);
    await this.queue.close();
    await this.#swept;
  }

  async #make({ operationId, jobId }: JobPointer, signal: AbortSignal): Promise<void> {
    const job = await this.#claim(operationId, jobId);
    if (job === null) return;
    if (job.attempt > mostAttempts) {
      return this.#fail(operationId, job, `The service was interrupted ${mostAttempts} times while making it.`);
    }
    const teller = new Teller((progress) => this.#tell(operationId, job, progress));
    const until = AbortSignal.any([signal, teller.cancelled]);
    const path = this.files.place(operationId, jobId, job.attempt);
    try {
      const { asked } = job;
      const file = await reportFile(this.reports, operationId, asked, (share) => teller.tell(share));
      const written = await this.files.write(path, file.bytes(), until);
      await teller.end();
      const now = this.clock.now();
      const done = await this.#run(
        operationId,
        `UPDATE report_job SET state = 'done', progress = 1, ended_at = $4, expires_at = $5, log_size = $6,
                file_name = $7, byte_length = $8, sha256 = $9
          WHERE operation_id = $1 AND job_id = $2 AND attempt = $3 AND state = 'running'`,
        [jobId, job.attempt, new Date(now), new Date(now + keptFor), file.logSize, file.name],
        [written.byteLength, written.sha256],
      );
      if (done === 0) await this.files.remove(path);
      else
        for (let old = 1; old < job.attempt; old += 1)
          await this.files.remove(this.files.place(operationId, jobId, old));
    } catch (error) {
      await teller.end();
      await this.files.remove(path);
      if (this.queue.closing) {
        await this.#giveBack(operationId, job);
        throw error;
      }
      if (until.aborted) return; // cancelled
      if (error instanceof ReportNotMade) return this.#fail(operationId, job, error.message);
      if (job.attempt < mostAttempts) throw error;
      const why = error instanceof Error ? error.message : String(error);
      process.emitWarning(`report ${jobId}: ${why}`, { code: 'FURROWMARK_REPORTS' });
      await this.#fail(operationId, job, 'It could not be made. Tell who runs the service; the log there says why.');
    }
  }

  /** The job, begun once more; null where it is cancelled, done or gone. */
  async #claim(operationId: string, jobId: string): Promise<JobRow | null> {
    const answer = await this.scope.run(operationId, (manager) =>
      manager.query(
        `UPDATE report_job SET state = 'running', attempt = attempt + 1, progress = 0,
                started_at = coalesce(started_at, $3)
          WHERE operation_id = $1 AND job_id = $2 AND state IN ('waiting', 'running') RETURNING *`,
        [operationId, jobId, new Date(this.clock.now())],
      ),
    );
    return returned.parse(answer)[0][0] ?? null;
  }

  /** False where the attempt does not count any more. */
  async #tell(operationId: string, { job_id: jobId, attempt }: JobRow, progress: number): Promise<boolean> {
    const count = await this.#run(
      operationId,
      `UPDATE report_job SET progress = $4
        WHERE operation_id = $1 AND job_id = $2 AND attempt = $3 AND state = 'running'`,
      [jobId, attempt, progress],
    );
    return count > 0;
  }

  async #giveBack(operationId: string, { job_id: jobId, attempt }: JobRow): Promise<void> {
    await this.#run(
      operationId,
      `UPDATE report_job SET state = 'waiting', attempt = attempt - 1, progress = 0
        WHERE operation_id = $1 AND job_id = $2 AND attempt = $3 AND state = 'running'`,
      [jobId, attempt],
    );
  }

  async #fail(operationId: string, { job_id: jobId, attempt }: JobRow, detail: string): Promise<void> {
    await this.#run(
      operationId,
      `UPDATE report_job SET state = 'failed', detail = $4, ended_at = $5
        WHERE operation_id = $1 AND job_id = $2 AND attempt = $3 AND state = 'running'`,
      [jobId, attempt, detail, new Date(this.clock.now())],
    );
  }

  async #run(operationId: string, statement: string, ...parameters: readonly unknown[][]): Promise<number> {
    const answer = await this.scope.run(operationId, (manager) =>
      manager.query(statement, [operationId, ...parameters.flat()]),
    );
    return changed.parse(answer)[1];
  }

  /** Removes results whose time is over, jobs that gave none after as long, and files that belong to no job. */
  async sweep(): Promise<void> {
    const now = this.clock.now();
    for (const operationId of await this.files.operations()) {
      const known = await this.scope.run(operationId, async (manager) => {
        const [gone] = removed.parse(
          await manager.query(
            `DELETE FROM report_job WHERE operation_id = $1 AND state NOT IN ('waiting', 'running')
                AND (coalesce(expires_at, ended_at + $3 * interval '1 millisecond') <= $2 OR ${holdsErased}) RETURNING job_id, attempt`,
            [operationId, new Date(now), keptFor],
          ),
        );
        for (const { job_id: jobId, attempt } of gone) {
          await this.files.remove(this.files.place(operationId, jobId, attempt));
        }
        return ids.parse(await manager.query('SELECT job_id FROM report_job WHERE operation_id = $1', [operationId]));
      });
      await this.files.tidy(operationId, new Set(known.map(({ job_id: jobId }) => jobId)), now);
    }
  }
}

/** Writes progress down now and then, and hears from it that a job was cancelled. */
class Teller {
  readonly #write: (progress: number) => Promise<boolean>;
  readonly #cancel = new AbortController();
  #last = 0;
  #writing: Promise<void> = Promise.resolve();
  #busy = false;
  #ended = false;

  constructor(write: (progress: number) => Promise<boolean>) {
    this.#write = write;
  }

  get cancelled(): AbortSignal {
    return this.#cancel.signal;
  }

  tell(progress: number): void {
    const now = performance.now();
    if (this.#busy || this.#ended || now - this.#last < told) return;
    this.#last = now;
    this.#busy = true;
    this.#writing = this.#write(progress)
      .then((counts) => {
        if (!counts) this.#cancel.abort();
      })
      // The database is away for a moment: the next one tells, and the end of the work says whether it is there.
      .catch(() => undefined)
      .finally(() => (this.#busy = false));
  }

  end(): Promise<void> {
    this.#ended = true;
    return this.#writing;
  }
}
