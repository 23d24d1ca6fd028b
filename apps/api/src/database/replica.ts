import { DataSource, type EntityManager } from 'typeorm';
import { z } from 'zod';
import { OperationScope } from './scope.ts';
import { SteadyClient } from './steady-client.ts';

/** After it failed, the replica is left alone for so long (milliseconds). */
const rest = 30_000;
const identity = z.tuple([z.object({ system: z.string(), database: z.string(), follows: z.boolean() })]);
const whoAmI = `SELECT system_identifier::text AS system, current_database()::text AS database,
                       pg_is_in_recovery() AS follows FROM pg_control_system()`;

/**
 * A streaming replica of the database, for what reads much: whole seasons, whole logs. Entries never change and have no
 * gaps, so any number of them from the beginning may be read there however far behind it is; what it does not have yet is
 * read where it was written. Nobody waits for a replica and nothing depends on it: where it does not answer, the database
 * itself does.
 */
export class Replica {
  #scope: OperationScope | null = null;
  #source: DataSource | null = null;
  #opening: Promise<OperationScope> | null = null;
  #awayUntil = 0;
  /** How many reads it answered, and how many it should have. */
  readonly counts = { answered: 0, failed: 0 };

  /** `url` enters the replica as the service's own login; null: there is none. */
  constructor(
    private readonly url: string | null,
    private readonly primary: DataSource,
  ) {}

  /** What `work` reads there, in one transaction; null where there is no replica or it does not answer just now. */
  async run<T>(operationId: string, work: (manager: EntityManager) => Promise<T>): Promise<T | null> {
    if (this.url === null || performance.now() < this.#awayUntil) return null;
    try {
      const scope = this.#scope ?? (await (this.#opening ??= this.#open(this.url)));
      const result = await scope.run(operationId, work);
      this.counts.answered += 1;
      return result;
    } catch (error) {
      this.counts.failed += 1;
      this.#awayUntil = performance.now() + rest;
      process.emitWarning(error instanceof Error ? error.message : String(error), { code: 'FURROWMARK_REPLICA' });
      return null;
    }
  }

  async close(): Promise<void> {
    const opening = this.#opening;
    this.#awayUntil = Infinity;
    await opening?.catch(() => undefined);
    await this.#source?.destroy();
  }

  async #open(url: string): Promise<OperationScope> {
    try {
      const source = await new DataSource({
        ...{ type: 'postgres', url, applicationName: 'furrowmark reports', poolSize: 5, connectTimeoutMS: 3_000 },
        // Appends to the operation wait while its season is brought up to date from here: not for long.
        extra: {
          ...{ Client: SteadyClient, pipeline: true, idleTimeoutMillis: 60_000 },
          ...{ statement_timeout: 20_000, query_timeout: 25_000 },
        },
        poolErrorHandler: () => undefined,
      }).initialize();
      try {
        await this.#assertReplica(source);
      } catch (error) {
        await source.destroy();
        throw error;
      }
      this.#source = source;
      return (this.#scope = new OperationScope(source));
    } finally {
      this.#opening = null;
    }
  }

  /** A database that only looks like it would answer with other people's entries. */
  async #assertReplica(source: DataSource): Promise<void> {
    const [here] = identity.parse(await this.primary.query(whoAmI));
    const [there] = identity.parse(await source.query(whoAmI));
    if (there.system !== here.system || there.database !== here.database || !there.follows)
      throw new Error('REPORTS_DATABASE_URL does not name a streaming replica of the database; it is not read.');
  }
}
