import { Injectable } from '@nestjs/common';
import type { PgBoss } from 'pg-boss';
import { DataSource, type EntityManager } from 'typeorm';
import { z } from 'zod';
import { bringBackTimes, queueOf, reportQueue, statementsIn } from '../database/index.ts';

/** What the queue holds of a job: where to find it. */
const pointer = z.object({ operationId: z.string(), jobId: z.string() });
export type JobPointer = z.infer<typeof pointer>;

/** How many reports a process makes at a time, and of one operation: nobody's packets keep everybody else waiting. */
const atATime = { localConcurrency: 2, localGroupConcurrency: 1 } as const;

/**
 * The queue of reports in PostgreSQL: a job is taken by one process, and given to another when that one falls silent.
 * Cheap to look at: every few seconds, and at once when this very process has put something in.
 */
@Injectable()
export class ReportQueue {
  readonly #boss: PgBoss;
  readonly #stopping = new AbortController();
  readonly #running = new Map<string, AbortController>();
  #worker: string | null = null;
  #watch: NodeJS.Timeout | null = null;

  constructor(private readonly dataSource: DataSource) {
    this.#boss = queueOf(dataSource, true);
    // A database that is away for a moment: the queue asks again.
    this.#boss.on('error', () => undefined);
  }

  /** Takes jobs from now on. The work is ended by its signal: when the job was cancelled, or when the queue is closed. */
  async start(work: (job: JobPointer, signal: AbortSignal) => Promise<void>): Promise<void> {
    // A clock that was set back: looked after before the first job is taken, and as long as the process runs.
    const lookBack = (): Promise<void> => bringBackTimes(this.dataSource).catch(() => undefined);
    await lookBack();
    this.#watch = setInterval(() => void lookBack(), 15_000).unref();
    await this.#boss.start();
    this.#worker = await this.#boss.work(
      reportQueue,
      { ...atATime, batchSize: 1, pollingIntervalSeconds: 2 },
      async (jobs: readonly { readonly data: unknown }[]) => {
        for (const job of jobs) await this.#take(pointer.parse(job.data), work);
      },
    );
  }

  async #take(job: JobPointer, work: (job: JobPointer, signal: AbortSignal) => Promise<void>): Promise<void> {
    const cancelled = new AbortController();
    this.#running.set(job.jobId, cancelled);
    try {
      await work(job, AbortSignal.any([cancelled.signal, this.#stopping.signal]));
    } finally {
      this.#running.delete(job.jobId);
    }
  }

  /** True once the process is to end: what is being made is given back, not failed. */
  get closing(): boolean {
    return this.#stopping.signal.aborted;
  }

  /** Puts a job in, in the transaction of the manager. */
  async send(manager: EntityManager, job: JobPointer): Promise<void> {
    const { operationId, jobId } = job;
    await this.#boss.send(reportQueue, job, {
      ...{ id: jobId, group: { id: operationId } },
      db: statementsIn(manager),
    });
  }

  /** Takes a job out, in the transaction of the manager. */
  async cancel(manager: EntityManager, jobId: string): Promise<void> {
    await this.#boss.cancel(reportQueue, jobId, { db: statementsIn(manager) });
  }

  /** Looks for jobs now. */
  wake(): void {
    if (this.#worker !== null) this.#boss.notifyWorker(this.#worker);
  }

  /** Ends the work on a job that was cancelled, should it be this process that is at it. */
  ended(jobId: string): void {
    this.#running.get(jobId)?.abort();
  }

  /** Takes no more; what is being made goes back into the queue. */
  async close(): Promise<void> {
    this.#stopping.abort();
    if (this.#watch !== null) clearInterval(this.#watch);
    await this.#boss.stop({ graceful: true, timeout: 10_000, close: false });
  }
}
