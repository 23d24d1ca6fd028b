import { mkdir } from 'node:fs/promises';
import { setTimeout as pause } from 'node:timers/promises';
import type { DataSource } from 'typeorm';
import { startEmbeddedDatabase, type EmbeddedDatabase } from './embedded.ts';
import { ownerDataSource, serviceDataSource } from './data-source.ts';
import { claim, liveHolder } from './holder.ts';
import { assertLeastRights } from './least-rights.ts';
import { serviceLogin } from './login-role.ts';
import { Replica } from './replica.ts';
import { migrate } from './schema.ts';

/** The database, up to date and entered as the service's own role. */
export interface OpenDatabase {
  readonly dataSource: DataSource;
  /** A copy that may be read instead, where there is one. */
  readonly replica: Replica;
  /** null where DATABASE_URL names a server. */
  readonly embedded: EmbeddedDatabase | null;
  close(): Promise<void>;
}

/** How a database is opened. */
export interface DatabaseOptions {
  readonly dataDir: string;
  /** The owner's connection string; absent: the embedded database under `dataDir`. */
  readonly databaseUrl?: string | undefined;
  /** A streaming replica of it, for reports and exports. It is entered as the service's own login. */
  readonly reportsDatabaseUrl?: string | undefined;
  /** True for the process that serves the data folder: there is only one, and it looks after the embedded database. */
  readonly serving: boolean;
  readonly poolSize?: number | undefined;
  /** How long the database may take over one statement (milliseconds). */
  readonly patience?: number | undefined;
}

/**
 * Opens the database: the one `databaseUrl` (the owner's) names, else the embedded one under `dataDir`. As owner it
 * migrates and makes the service's login, then that connection is closed.
 */
export async function openDatabase({
  dataDir,
  databaseUrl,
  reportsDatabaseUrl,
  serving,
  poolSize,
  patience,
}: DatabaseOptions): Promise<OpenDatabase> {
  await mkdir(dataDir, { recursive: true });
  const release = serving && databaseUrl === undefined ? await claim(dataDir) : null;
  const embedded = databaseUrl === undefined ? await startEmbeddedDatabase(dataDir) : null;
  const ownerUrl = databaseUrl ?? embedded?.ownerUrl ?? '';
  const watch = serving && embedded ? keepRunning(embedded) : null;
  const stop = async (): Promise<void> => {
    await watch?.();
    // Left running for whoever serves the folder; a server found running without such a one was left by a killed service.
    if (embedded && (serving || (embedded.startedHere && (await liveHolder(dataDir)) === null))) await embedded.stop();
    await release?.();
  };
  try {
    const owner = await ownerDataSource(ownerUrl).initialize();
    let serviceUrl: string;
    try {
      await migrate(owner);
      serviceUrl = await serviceLogin(owner, ownerUrl, dataDir);
    } finally {
      await owner.destroy();
    }
    const dataSource = await serviceDataSource(serviceUrl, poolSize, patience).initialize();
    await assertLeastRights(dataSource).catch(async (error: unknown) => {
      await dataSource.destroy();
      throw error;
    });
    const replica = new Replica(
      reportsDatabaseUrl === undefined ? null : sameLogin(reportsDatabaseUrl, serviceUrl),
      dataSource,
    );
    return {
      dataSource,
      replica,
      embedded,
      close: async () => {
        await replica.close();
        await dataSource.destroy();
        await stop();
      },
    };
  } catch (error) {
    await stop();
    throw error;
  }
}

/** The roles of a replica are those of its database. */
function sameLogin(replicaUrl: string, serviceUrl: string): string {
  const [there, here] = [new URL(replicaUrl), new URL(serviceUrl)];
  there.username = here.username;
  there.password = here.password;
  return there.toString();
}

/** Starts the embedded database again should it die; gives what ends the watch. */
function keepRunning(embedded: EmbeddedDatabase): () => Promise<void> {
  let ended = false;
  const end = new AbortController();
  const watching = (async () => {
    while (!ended) {
      await pause(500, undefined, { signal: end.signal }).catch(() => undefined);
      if (!ended && (await embedded.pid()) === null) await embedded.revive().catch(() => undefined);
    }
  })();
  return async () => {
    ended = true;
    end.abort();
    await watching;
  };
}
