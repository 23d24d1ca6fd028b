import { DataSource } from 'typeorm';
import { migrations } from '@furrowmark/migrations';
import { SteadyClient } from './steady-client.ts';

/** A connection as the schema's owner: migrates, makes the service's login, and is closed. */
export function ownerDataSource(url: string): DataSource {
  return new DataSource({
    type: 'postgres',
    url,
    applicationName: 'furrowmark owner',
    migrations: [...migrations],
    migrationsTableName: 'schema_migration',
    migrationsTransactionMode: 'each',
    extra: { max: 2, Client: SteadyClient },
  });
}

/** How long the database may take over one statement, in milliseconds, where nothing else is said. */
const usualPatience = 60_000;

/**
 * The service's connections. Statements issued together travel together (`pipeline`).
 *
 * The database ends a statement that takes longer than `patience`, and a transaction in which nothing is said for so long,
 * so that no lock is kept by somebody who is gone. A line on which no answer comes at all is given up a little later, with
 * everything that waits on it, and another one is opened for whoever asks next.
 */
export function serviceDataSource(url: string, poolSize = 20, patience = usualPatience): DataSource {
  return new DataSource({
    type: 'postgres',
    url,
    applicationName: 'furrowmark',
    poolSize,
    connectTimeoutMS: Math.min(10_000, patience),
    extra: {
      pipeline: true,
      idleTimeoutMillis: 60_000,
      Client: SteadyClient,
      statement_timeout: patience,
      idle_in_transaction_session_timeout: patience,
      query_timeout: patience * 1.25,
      // A line that died while nobody used it is noticed by the system.
      keepAlive: true,
      keepAliveInitialDelayMillis: 30_000,
    },
    // A connection that dies while idle is replaced; the next request says so if the database is gone.
    poolErrorHandler: () => undefined,
  });
}
