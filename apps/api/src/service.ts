import 'reflect-metadata';
import { join, resolve } from 'node:path';
import { NestFactory } from '@nestjs/core';
import type { NestExpressApplication } from '@nestjs/platform-express';
import type { INestApplicationContext } from '@nestjs/common';
import { Access, EndedAccess, type Person, type Role } from './access/index.ts';
import { Alerts } from './alerts/index.ts';
import { Post, postBySmtp, Schedule } from './archive/index.ts';
import { AppModule } from './app.module.ts';
import { Appender } from './append/index.ts';
import { machineClock, type Clock } from './clock.ts';
import { openDatabase, type OpenDatabase } from './database/index.ts';
import { DiskRoom } from './disk-room.ts';
import { allowOrigins, answerUnreadable, closable, dressed, type LogChoice } from './http/index.ts';
import { DocumentFiles } from './documents/index.ts';
import { LogKey } from './log/index.ts';
import { serveWebApp } from './pages/index.ts';
import { ReportFiles, ReportMaker } from './report-jobs/index.ts';
import { RuleUpgrades, SeasonRoom, usualRoom } from './views/index.ts';
import { Operations, type Created, type OperationDescription } from './operations.ts';

/** What a service runs on. */
export interface ServiceOptions {
  /** Keys, secrets and, without `databaseUrl`, the embedded database live here. Made where it is missing. */
  readonly dataDir: string;
  /** The owner's connection string of a PostgreSQL (15 or later). */
  readonly databaseUrl?: string | undefined;
  /** A streaming replica of that, which reports and exports are read from as far as it has come. */
  readonly reportsDatabaseUrl?: string | undefined;
  /** The machine's, where left out. */
  readonly clock?: Clock | undefined;
  /** `silent`, or a level of pino's; `info` where left out. */
  readonly log?: LogChoice | undefined;
  readonly poolSize?: number | undefined;
  /** How long the database may take over one statement (milliseconds); a minute, where left out, ten for commands. */
  readonly databasePatience?: number | undefined;
  /** How many records the seasons kept in memory may have together; the usual number, where left out. */
  readonly recordsInMemory?: number | undefined;
  /** Where letters go out; without it, checkpoints are only signed and kept. */
  readonly mail?: { readonly url: string; readonly from: string } | undefined;
}

export interface ServerOptions extends ServiceOptions {
  /** 0 (or nothing): any free one. */
  readonly port?: number | undefined;
  /** The address to listen on; this machine only, where left out. */
  readonly host?: string | undefined;
  /** Other sites whose pages may ask with a token (never with a session's cookie); none, where left out. */
  readonly origins?: readonly string[] | undefined;
}

/** The service's inside, for commands and tests. */
export interface Service {
  /** An account for a person; the name is shown in the service, never recorded. */
  createAccount(input: { readonly name: string }): Promise<{ accountId: string }>;
  /** A bearer token for a person or a device of that person: shown this once, only its hash is kept. */
  issueToken(input: {
    readonly accountId: string;
    readonly label: string;
    readonly lifeDays?: number;
  }): Promise<{ token: string }>;
  /** A new operation with the person as its manager. */
  createOperation(person: Person, description: OperationDescription, occurredAt?: string): Promise<Created>;
  grant(input: { readonly operationId: string; readonly accountId: string; readonly role: Role }): Promise<void>;
  /** The parts, by class: for what has no function of its own here. */
  readonly context: INestApplicationContext;
  readonly database: OpenDatabase;
  close(): Promise<void>;
}

/** A service that answers over HTTP. */
export interface RunningService extends Service {
  /** `http://127.0.0.1:3000`, without a slash at the end. */
  readonly url: string;
  readonly port: number;
}

/** Opens the service without HTTP, beside one that serves the same data or alone. */
export async function openService(options: ServiceOptions): Promise<Service> {
  const { database, module } = await found(options, false);
  const context = await NestFactory.createApplicationContext(module, { logger: false, abortOnError: false }).catch(
    async (error: unknown) => {
      await database.close();
      throw error;
    },
  );
  return inside(context, database, async () => {
    await context.get(Appender).close();
    await context.close();
    await database.close();
  });
}

/**
 * Starts the service: opens or makes its database, brings the schema up to date, listens. `close` takes no more
 * requests, answers those it accepted, and stops the embedded database.
 */
export async function startService(options: ServerOptions): Promise<RunningService> {
  const { database, module } = await found(options, true);
  try {
    const app = await NestFactory.create<NestExpressApplication>(module, {
      bodyParser: false,
      logger: false,
      abortOnError: false,
    });
    const stopListening = closable(app);
    dressed(app, options.log ?? 'info');
    allowOrigins(app, options.origins ?? []);
    serveWebApp(app);
    answerUnreadable(app.getHttpServer());
    await app.listen(options.port ?? 0, options.host ?? '127.0.0.1');
    app.get(Schedule).start();
    app.get(EndedAccess).start();
    app.get(DiskRoom).start();
    app.get(Alerts).start();
    app.get(RuleUpgrades).start();
    await app.get(ReportMaker).start();
    const address: unknown = app.getHttpServer().address();
    const port = typeof address === 'object' && address !== null && 'port' in address ? Number(address.port) : 0;
    const shown = options.host === undefined || options.host === '0.0.0.0' ? '127.0.0.1' : options.host;
    const service = inside(app, database, async () => {
      await stopListening();
      await app.get(ReportMaker).close();
      await app.get(Alerts).close();
      await app.get(RuleUpgrades).close();
      await app.get(EndedAccess).close();
      app.get(DiskRoom).close();
      await app.get(Schedule).close();
      await app.get(Appender).close();
      await database.close();
    });
    return { ...service, url: `http://${shown}:${port}`, port };
  } catch (error) {
    await database.close();
    throw error;
  }
}

async function found(options: ServiceOptions, serving: boolean) {
  const dataDir = resolve(options.dataDir);
  const { databaseUrl, reportsDatabaseUrl, poolSize } = options;
  // A command such as `rebuild` takes up whole logs, and somebody watches it.
  const patience = options.databasePatience ?? (serving ? 60_000 : 600_000);
  const database = await openDatabase({ dataDir, databaseUrl, reportsDatabaseUrl, serving, poolSize, patience });
  try {
    const logKey = await LogKey.open(dataDir);
    const documents = new DocumentFiles(join(dataDir, 'documents'));
    const reportFiles = new ReportFiles(join(dataDir, 'reports'));
    const clock = options.clock ?? machineClock;
    const post: Post = postBySmtp(options.mail?.url, options.mail?.from);
    const module = AppModule.on({
      dataSource: database.dataSource,
      replica: database.replica,
      ...{ clock, logKey, documents, reportFiles, post, diskRoom: new DiskRoom(dataDir) },
      seasonRoom: new SeasonRoom(options.recordsInMemory ?? usualRoom),
    });
    return { database, module };
  } catch (error) {
    await database.close();
    throw error;
  }
}

function inside(context: INestApplicationContext, database: OpenDatabase, end: () => Promise<void>): Service {
  const access = context.get(Access);
  const operations = context.get(Operations);
  let ending: Promise<void> | null = null;
  return {
    createAccount: (input) => access.createAccount(input),
    issueToken: (input) => access.issueToken(input),
    createOperation: (person, description, occurredAt) => operations.create(person, description, occurredAt),
    grant: (input) => access.grant(input),
    context,
    database,
    close: () => (ending ??= end()),
  };
}
