import { Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import type { Member } from '../access/index.ts';
import { Clock } from '../clock.ts';
import { OperationScope } from '../database/index.ts';
import { ProblemAnswer } from '../http/index.ts';
import { lockHead } from '../log/index.ts';
import { Metrics } from '../metrics.ts';
import { Deadlines, Seasons, Settler, type Held } from '../views/index.ts';
import { decide, type AppendRequest } from './decide.ts';
import { Line } from './line.ts';
import { knownEntries, lastRecordsOf } from './lookup.ts';
import type { Appended } from './outcome.ts';
import { prepare } from './prepare.ts';
import { writeEntries } from './write.ts';

const mostInGroup = 2_000;
const mostWaiting = 20_000;

/** The only way into a log. */
@Injectable()
export class Appender {
  readonly #lines = new Map<string, Line<AppendRequest, Appended>>();
  #closed = false;

  constructor(
    private readonly scope: OperationScope,
    private readonly seasons: Seasons,
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

  async #writeGroup(operationId: string, requests: readonly AppendRequest[]): Promise<Appended[]> {
    const held: { season?: Held } = {};
    try {
      const answers = await this.scope.run(operationId, (manager) => this.write(manager, operationId, requests, held));
      held.season?.release('keep');
      this.#count(answers);
      return answers;
    } catch (error) {
      // The season may have taken records that the database did not.
      held.season?.release('drop');
      throw error;
    }
  }

  #count(answers: readonly Appended[]): void {
    let recorded = 0;
    for (const { status } of answers.flatMap(({ results }) => results)) {
      this.metrics.appended.inc({ status });
      if (status === 'recorded') recorded += 1;
    }
    if (recorded > 0) this.metrics.groups.observe(recorded);
  }

  /** The work of one append, inside the operation's transaction. `held` gets the season, to be released after the commit. */
  async write(
    manager: EntityManager,
    operationId: string,
    requests: readonly AppendRequest[],
    held: { season?: Held },
  ): Promise<Appended[]> {
    const prepared = requests.flatMap(({ entries }) => entries.filter((entry) => entry.status === 'prepared'));
    const ids = new Set(prepared.flatMap(({ id, ownOnly }) => (ownOnly === null ? [id] : [id, ownOnly])));
    const erased = prepared.flatMap(({ draft }) => (draft.type === 'person.erased' ? [draft.data.personId] : []));
    const [head, known, lastRecords] = await Promise.all([
      lockHead(manager, operationId),
      knownEntries(manager, operationId, [...ids]),
      lastRecordsOf(manager, operationId, erased),
    ]);
    if (head === null) throw new Error(`the operation ${operationId} has no log`);
    if (head.readOnly && prepared.some(({ draft }) => draft.type !== 'import.made')) {
      throw new ProblemAnswer('read-only', 'This log came in as an archive. A manager takes it over first.');
    }
    const recordedAt = new Date(Math.max(this.clock.now(), head.recordedAt)).toISOString();
    const lastRecordOf = new Map(erased.map((id) => [id, lastRecords.get(id) ?? -Infinity]));
    const { results, entries } = decide(requests, { operationId, size: head.size, recordedAt, known, lastRecordOf });
    let grown = { size: head.size, root: head.root };
    if (entries.length > 0) {
      const writing = writeEntries(manager, operationId, head, entries);
      const settled = Promise.allSettled([writing]);
      try {
        held.season = await this.seasons.hold(operationId);
        const stale = await held.season.project(
          manager,
          head.size,
          entries.map(({ record }) => record),
        );
        // Should the transaction fail after all, there is nothing to settle, and that does no harm.
        if (stale > 0) this.settler.later(operationId);
        this.deadlines.later(operationId);
      } finally {
        await settled;
      }
      grown = await writing;
    }
    const log = { size: grown.size, root: grown.root.toString('base64') };
    return results.map((each) => ({ results: each, log }));
  }
}
