import { PgBoss } from 'pg-boss';
import type { DataSource, EntityManager } from 'typeorm';

/** Where the queue's own tables are. They hold ids and times, nothing that was recorded. */
const schema = 'job_queue';

/** What waits in the queue, by name. */
export const reportQueue = 'report';

interface Connection {
  query(text: string, values?: unknown[]): Promise<{ rows: unknown[] }>;
}
const isConnection = (value: unknown): value is Connection =>
  typeof value === 'object' && value !== null && 'query' in value && typeof value.query === 'function';

async function executed(manager: EntityManager, text: string, values?: unknown[]): Promise<{ rows: unknown[] }> {
  const connection: unknown = await manager.queryRunner?.connect();
  if (!isConnection(connection)) throw new Error('a statement of the queue has no connection');
  return connection.query(text, values);
}

/** The queue's statements on the connections that are there anyway, each on its own. */
function statementsOn(dataSource: DataSource) {
  return {
    async executeSql(text: string, values?: unknown[]): Promise<{ rows: unknown[] }> {
      const runner = dataSource.createQueryRunner();
      try {
        return await executed(runner.manager, text, values);
      } finally {
        await runner.release();
      }
    },
  };
}

/** The queue's statements in a transaction that is under way. */
export function statementsIn(manager: EntityManager) {
  return { executeSql: (text: string, values?: unknown[]) => executed(manager, text, values) };
}

/** No timetable and no register of processes: jobs are sent, taken and looked after. */
const plain = { schema, schedule: false, registerInstance: false, persistWarnings: false } as const;

/**
 * As the owner: makes the queue's tables, or brings them up to the version of the library, and lets the service use them.
 * One process at a time.
 */
export async function prepareQueue(owner: DataSource): Promise<void> {
  const boss = new PgBoss({ ...plain, db: statementsOn(owner), supervise: false, migrate: true });
  boss.on('error', () => undefined);
  await boss.start();
  try {
    // Whoever works on a job says so every few seconds; one that fell silent is given to another process. A report that
    // takes longer than a day is none.
    await boss.createQueue(reportQueue, {
      ...{ retryLimit: 10, retryDelay: 1, heartbeatSeconds: 10, expireInSeconds: 86_399 },
      ...{ retentionSeconds: 7 * 86_400, deleteAfterSeconds: 86_400 },
    });
  } finally {
    await boss.stop({ graceful: false, close: false });
  }
  await owner.query(`
    GRANT USAGE ON SCHEMA ${schema} TO furrowmark_service;
    GRANT SELECT, INSERT, UPDATE, DELETE ON ALL TABLES IN SCHEMA ${schema} TO furrowmark_service`);
}

const ahead = (...names: readonly string[]): string =>
  names.map((name) => `${name} > now() + interval '1 minute'`).join(' OR ');
const notAhead = (...names: readonly string[]): string =>
  names.map((name) => `${name} = least(${name}, now())`).join(', ');
const ofJobs = ['start_after', 'started_on', 'heartbeat_on'];
const ofQueues = ['monitor_claim_on', 'monitor_on', 'maintain_on', 'delta_on', 'retained_on'];

/**
 * Brings back times of the queue that lie ahead: the database's clock was set back. A job would wait, and a process that
 * fell silent be trusted, until the clock has come as far again. The queue itself delays nothing by as much as a minute.
 */
export async function bringBackTimes(dataSource: DataSource): Promise<void> {
  await dataSource.query(
    `UPDATE ${schema}.job SET ${notAhead(...ofJobs)} WHERE state IN ('created', 'retry', 'active') AND (${ahead(...ofJobs)})`,
  );
  await dataSource.query(`UPDATE ${schema}.queue SET ${notAhead(...ofQueues)} WHERE ${ahead(...ofQueues)}`);
}

/** The queue as the service uses it; `looksAfter` is true for a process that serves. Not started yet. */
export function queueOf(dataSource: DataSource, looksAfter: boolean): PgBoss {
  return new PgBoss({
    ...{ ...plain, db: statementsOn(dataSource), migrate: false, supervise: looksAfter },
    ...{ superviseIntervalSeconds: 5, monitorIntervalSeconds: 5, reindex: false, monitorVacuum: false },
  });
}
