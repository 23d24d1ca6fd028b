import { Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import { v7 as uuidv7 } from 'uuid';
import { z } from 'zod';
import type { Member } from '../access/index.ts';
import { Clock } from '../clock.ts';
import { OperationScope } from '../database/index.ts';
import { ProblemAnswer } from '../http/index.ts';
import { holdsErased, jobRow, viewOf, type AskedReport, type JobRow, type JobView } from './job.ts';
import { ReportFiles } from './report-files.ts';
import { ReportQueue } from './report-queue.ts';

/** How many reports a person may have waiting or being made in an operation. */
const mostOpen = 5;
const rows = z.array(jobRow);
const counted = z.array(z.object({ count: z.coerce.number() }));
type Owner = Pick<Member, 'operationId' | 'accountId'>;

/** Reports made in the background, as those see them who asked for them. Nobody sees another person's. */
@Injectable()
export class ReportJobs {
  constructor(
    private readonly scope: OperationScope,
    private readonly queue: ReportQueue,
    private readonly files: ReportFiles,
    private readonly clock: Clock,
  ) {}

  /** Puts a report into the queue, together with what was asked: both are there, or neither. */
  async ask({ operationId, accountId }: Owner, asked: AskedReport): Promise<JobView> {
    const jobId = uuidv7();
    const row = await this.scope.run(operationId, async (manager) => {
      const [open] = counted.parse(
        await manager.query(
          `SELECT count(*) AS count FROM report_job
            WHERE operation_id = $1 AND account_id = $2 AND state IN ('waiting', 'running')`,
          [operationId, accountId],
        ),
      );
      if ((open?.count ?? 0) >= mostOpen) {
        const detail = `${mostOpen} reports of yours are being made. Wait for one, or cancel one.`;
        throw new ProblemAnswer('too-many-requests', detail, [], 30);
      }
      const made = await manager.query(
        `INSERT INTO report_job (operation_id, job_id, account_id, asked, state, created_at)
         VALUES ($1, $2, $3, $4, 'waiting', $5) RETURNING *`,
        [operationId, jobId, accountId, JSON.stringify(asked), new Date(this.clock.now())],
      );
      await this.queue.send(manager, { operationId, jobId });
      return rows.parse(made)[0];
    });
    this.queue.wake();
    if (row === undefined) throw new Error('a job that was just written is not there');
    return viewOf(operationId, row);
  }

  /** A person's jobs in an operation, the newest first. */
  async list({ operationId, accountId }: Owner): Promise<JobView[]> {
    const found = await this.scope.run(operationId, (manager) =>
      manager.query(
        `SELECT * FROM report_job WHERE operation_id = $1 AND account_id = $2 AND NOT ${holdsErased}
          ORDER BY created_at DESC, job_id LIMIT 100`,
        [operationId, accountId],
      ),
    );
    return rows.parse(found).map((row) => viewOf(operationId, row));
  }

  async find(owner: Owner, jobId: string): Promise<JobView | null> {
    const row = await this.scope.run(owner.operationId, (manager) => this.#row(manager, owner, jobId));
    return row === null ? null : viewOf(owner.operationId, row);
  }

  /** Cancels what is not made yet; removes what is. Gives the job as it then is; null where there is no such job. */
  async end(owner: Owner, jobId: string): Promise<JobView | null> {
    const { operationId } = owner;
    const ended = await this.scope.run(operationId, async (manager) => {
      const before = await this.#row(manager, owner, jobId, 'FOR UPDATE');
      if (before === null) return null;
      const open = before.state === 'waiting' || before.state === 'running';
      if (!open) {
        await manager.query('DELETE FROM report_job WHERE operation_id = $1 AND job_id = $2', [operationId, jobId]);
        return before;
      }
      await manager.query(
        `UPDATE report_job SET state = 'cancelled', ended_at = $3 WHERE operation_id = $1 AND job_id = $2`,
        [operationId, jobId, new Date(this.clock.now())],
      );
      await this.queue.cancel(manager, jobId);
      return this.#row(manager, owner, jobId);
    });
    if (ended === null) return null;
    if (ended.file_name !== null) await this.files.remove(this.files.place(operationId, jobId, ended.attempt));
    this.queue.ended(jobId);
    return viewOf(operationId, ended);
  }

  /** Where a finished report's bytes are; null where there is no such job. */
  async result(owner: Owner, jobId: string): Promise<{ view: JobView; path: string } | null> {
    const row = await this.scope.run(owner.operationId, (manager) => this.#row(manager, owner, jobId));
    if (row === null) return null;
    return {
      view: viewOf(owner.operationId, row),
      path: this.files.place(owner.operationId, jobId, row.attempt),
    };
  }

  async #row(
    manager: EntityManager,
    { operationId, accountId }: Owner,
    jobId: string,
    lock: '' | 'FOR UPDATE' = '',
  ): Promise<JobRow | null> {
    const found = await manager.query(
      `SELECT * FROM report_job
        WHERE operation_id = $1 AND job_id = $2 AND account_id = $3 AND NOT ${holdsErased} ${lock}`,
      [operationId, jobId, accountId],
    );
    return rows.parse(found)[0] ?? null;
  }
}
