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

/** The service's connections. Statements issued together travel together (`pipeline`). */
export function serviceDataSource(url: string, poolSize = 20): DataSource {
  return new DataSource({
    type: 'postgres',
    url,
    applicationName: 'furrowmark',
    poolSize,
    connectTimeoutMS: 10_000,
    extra: { pipeline: true, idleTimeoutMillis: 60_000, Client: SteadyClient },
    // A connection that dies while idle is replaced; the next request says so if the database is gone.
    poolErrorHandler: () => undefined,
  });
}
