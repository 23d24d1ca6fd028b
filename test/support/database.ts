import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { request } from 'node:http';
import { join } from 'node:path';
import { readyCluster } from './cluster.ts';
import { temporaryFolder } from './folder.ts';

/** Where the tests' database is. Without a connection string the service makes its own under `dataDir`. */
export interface TestDatabase {
  readonly kind: 'given' | 'container' | 'embedded';
  readonly dataDir: string;
  readonly databaseUrl: string | undefined;
}

/**
 * The database for this jest worker: the server that TEST_DATABASE_URL (an owner who may create databases) names; else a
 * container where a Docker engine answers; else the embedded one. The same tests run on each.
 */
export async function testDatabase(): Promise<TestDatabase> {
  const dataDir = temporaryFolder('data');
  const given = process.env['TEST_DATABASE_URL'];
  if (given) return { kind: 'given', dataDir, databaseUrl: await freshDatabase(given, dataDir) };
  if (await engineAnswers()) return { kind: 'container', dataDir, databaseUrl: await containerDatabase(dataDir) };
  await readyCluster(dataDir);
  return { kind: 'embedded', dataDir, databaseUrl: undefined };
}

/** A database of this worker's own on the given server, made once. */
async function freshDatabase(server: string, dataDir: string): Promise<string> {
  const url = new URL(server);
  const name = `furrowmark_test_${process.pid}`;
  if (!existsSync(join(dataDir, 'created'))) {
    const { DataSource } = await import('typeorm');
    const owner = await new DataSource({ type: 'postgres', url: server }).initialize();
    await owner.query(`DROP DATABASE IF EXISTS ${name}`);
    await owner.query(`CREATE DATABASE ${name}`);
    await owner.destroy();
    writeFileSync(join(dataDir, 'created'), '');
  }
  url.pathname = `/${name}`;
  return url.toString();
}

async function containerDatabase(dataDir: string): Promise<string> {
  const known = join(dataDir, 'container');
  if (existsSync(known)) return readFileSync(known, 'utf8');
  const { GenericContainer, Wait } = await import('testcontainers');
  const container = await new GenericContainer('postgres:18-alpine')
    .withEnvironment({ POSTGRES_PASSWORD: 'owner' })
    .withExposedPorts(5432)
    .withWaitStrategy(Wait.forLogMessage(/ready to accept connections/, 2))
    .start();
  const url = `postgres://postgres:owner@${container.getHost()}:${container.getMappedPort(5432)}/postgres`;
  writeFileSync(known, url);
  return url;
}

/** Whether a Docker engine answers on its socket; asked first, because loading the container library takes a second. */
function engineAnswers(): Promise<boolean> {
  const socketPath = (process.env['DOCKER_HOST'] ?? '').replace(/^unix:\/\//, '') || '/var/run/docker.sock';
  if (!existsSync(socketPath)) return Promise.resolve(false);
  return new Promise((resolve) => {
    const asked = request({ socketPath, path: '/_ping', timeout: 1000 }, (answer) => {
      answer.resume();
      resolve(answer.statusCode === 200);
    });
    asked.on('error', () => resolve(false));
    asked.on('timeout', () => asked.destroy());
    asked.end();
  });
}
