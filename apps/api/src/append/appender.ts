import { Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import type { Member } from '../access/index.ts';
import { Clock } from '../clock.ts';
import { OperationScope, together, type AtLast } from '../database/index.ts';
import { codeOf } from '../error-code.ts';
import { ProblemAnswer } from '../http/index.ts';
import type { Head } from '../log/index.ts';
import { Metrics } from '../metrics.ts';
import { Deadlines, markUnfollowed, Settler } from '../views/index.ts';
import { decide, type AppendRequest } from './decide.ts';
import { Line } from './line.ts';
import { asksTheLog, lookUp, preparedIn, type LookedUp } from './ground.ts';
import type { Appended } from './outcome.ts';
import { prepare } from './prepare.ts';
import { RememberedHeads } from './remembered-heads.ts';
import { writeEntries } from './write.ts';

const mostInGroup = 2_000;
const mostWaiting = 20_000;

/** The only way into a log. */
@Injectable()
export class Appender {
  readonly #lines = new Map<string, Line<AppendRequest, Appended>>();
  readonly #heads = new RememberedHeads();
  #closed = false;

  constructor(
    private readonly scope: OperationScope,
    private readonly settler: Settler,
    private readonly deadlines: Deadlines,
    private readonly clock: Clock,
    private readonly metrics: Metrics,
  ) {}

  /** Records what can be recorded, in the order given, and says of each what became of it; null where too much waits. */
  append(member: Member, records: readonly unknown[]): Promise<Appended> | null {
    if (this.#closed) return null;
    const entries = prepare(records, member, this.clock.now());
    let line = this.#lines.get(member.operationId);
    if (!line) {
      line = new Line((requests) => this.#writeGroup(member.operationId, requests), mostInGroup, mostWaiting);
      this.#lines.set(member.operationId, line);
    }
    const answer = line.join({ accountId: member.accountId, entries }, entries.length);
    const forget = (): void => {
      if (line.idle) this.#lines.delete(member.operationId);
    };
    answer?.then(forget, forget);
    return answer;
  }

  /** Takes nothing more, and waits until everything accepted has been written and answered. */
  async close(): Promise<void> {
    this.#closed = true;
    await Promise.all([...this.#lines.values()].map((line) => line.drained()));
  }

  /**
   * Where the log probably stands is remembered from the last append: then everything is sent to the database at once. It
   * takes back what builds on a wrong guess, or repeats a record it has; that is done again by way of the lock.
   */
  async #writeGroup(operationId: string, requests: readonly AppendRequest[]): Promise<Appended[]> {
    const guess = asksTheLog(requests) ? null : this.#heads.guess(operationId);
    if (guess !== null) {
      try {
        return await this.#tryGroup(operationId, requests, guess);
      } catch (error) {
        const code = codeOf(error);
        if (code !== headMoved && code !== idKnown) throw error;
        if (code === headMoved) this.#heads.wrong(operationId);
      }
    }
    return this.#tryGroup(operationId, requests, null);
  }

  async #tryGroup(operationId: string, requests: readonly AppendRequest[], guess: Head | null): Promise<Appended[]> {
    const { answers, head } = await this.scope.run(operationId, async (manager, atLast) => {
      const ground =
        guess === null
          ? await lookUp(manager, operationId, requests)
          : { head: guess, known: new Map(), lastRecordOf: new Map() };
      return this.#write(manager, operationId, requests, ground, atLast);
    });
    this.#heads.remember(operationId, head);
    this.#count(answers);
    if (preparedIn(requests).some(({ draft }) => mayDescribe(draft.type))) await this.#settled(operationId);
    return answers;
  }

  /** An operation's new name stands in the list of operations as soon as it is recorded. */
  async #settled(operationId: string): Promise<void> {
    // What was recorded is recorded: what fails here is settled with the next append, or when a list is read.
    await this.settler.settle(operationId).catch(() => undefined);
  }

  #count(answers: readonly Appended[]): void {
    let recorded = 0;
    for (const { status } of answers.flatMap(({ results }) => results)) {
      this.metrics.appended.inc({ status });
      if (status === 'recorded') recorded += 1;
    }
    if (recorded > 0) this.metrics.groups.observe(recorded);
  }

  /** The work of one append, inside the operation's transaction; `stands` is to be told the head once it is committed. */
  async write(
    manager: EntityManager,
    operationId: string,
    request: AppendRequest,
  ): Promise<{ answer: Appended; head: Head }> {
    const last: Promise<unknown>[] = [];
    try {
      const ground = await lookUp(manager, operationId, [request]);
      const { answers, head } = this.#write(manager, operationId, [request], ground, (each) => last.push(each));
      const [answer] = answers;
      if (answer === undefined) throw new Error('the append was not answered');
      return { answer, head };
    } finally {
      await together(last);
    }
  }

  /** The log stands there, by an append that was written in somebody else's transaction. */
  stands(operationId: string, head: Head): void {
    this.#heads.remember(operationId, head);
  }

  /** Sends to the database what is recorded; what follows from it is settled after the commit. */
  #write(
    manager: EntityManager,
    operationId: string,
    requests: readonly AppendRequest[],
    { head, known, lastRecordOf }: LookedUp,
    atLast: AtLast,
  ): { answers: Appended[]; head: Head } {
    if (head.readOnly && preparedIn(requests).some(({ draft }) => draft.type !== 'import.made')) {
      throw new ProblemAnswer('read-only', 'This log came in as an archive. A manager takes it over first.');
    }
    const recordedAt = new Date(Math.max(this.clock.now(), head.recordedAt)).toISOString();
    const { results, entries } = decide(requests, { operationId, size: head.size, recordedAt, known, lastRecordOf });
    let after = head;
    if (entries.length > 0) {
      const writing = writeEntries(manager, operationId, head, entries);
      after = writing.head;
      atLast(writing.written);
      atLast(markUnfollowed(manager, operationId, head.size, after.size));
      // Should the transaction fail after all, there is nothing to settle, and that does no harm.
      this.settler.later(operationId);
      this.deadlines.later(operationId);
    }
    const log = { size: after.size, root: after.root.toString('base64') };
    return { answers: results.map((each) => ({ results: each, log })), head: after };
  }
}

/** Whether a record of this type may change the operation's own name or zone. */
const mayDescribe = (type: string): boolean => type.startsWith('operation.') || type.startsWith('record.');

/** What PostgreSQL says where the log does not stand where it was taken to, and where a record's id is in it already. */
const headMoved = '22012';
const idKnown = '23505';
