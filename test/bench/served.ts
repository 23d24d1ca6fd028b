import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { readFileSync } from 'node:fs';
import { Agent, request } from 'node:http';
import { fileURLToPath } from 'node:url';
import pg from 'pg';
import { z } from 'zod';
import { nodeOptions } from '../../apps/api/bin/places.mjs';
import type { Asked } from './asked.ts';
import { requests, type Sent } from './records.ts';

const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url));
const started = z.object({ url: z.string(), token: z.string(), ownerUrl: z.string(), serviceUrl: z.string() });
const timed = z.union([z.object({ ms: z.number() }), z.object({ failed: z.string() })]);
const created = z.object({ operationId: z.string() });
const appended = z.object({ results: z.array(z.looseObject({ status: z.string() })) });

/** The service in a process of its own, and the same database by a plain driver. */
export class Served {
  readonly #agent = new Agent({ keepAlive: true, maxSockets: 64 });

  private constructor(
    readonly child: ChildProcess,
    readonly url: string,
    readonly token: string,
    /** As the owner: row-level security is not in its way. */
    readonly pool: pg.Pool,
    readonly ownerUrl: string,
    /** The service's own login. */
    readonly serviceUrl: string,
  ) {}

  static async start(dataDir: string): Promise<Served> {
    const child = spawn(
      process.execPath,
      [...nodeOptions, '--import', here('../../apps/api/register.mjs'), here('./serving.ts'), dataDir],
      {
        stdio: ['ignore', 'inherit', 'inherit', 'ipc'],
      },
    );
    const [message] = await once(child, 'message');
    const { url, token, ownerUrl, serviceUrl } = started.parse(message);
    const pool = new pg.Pool({ connectionString: ownerUrl, max: 20 });
    // The database may be gone before the last connection has said goodbye.
    pool.on('connect', (client) => client.on('error', () => undefined));
    pool.on('error', () => undefined);
    await pool.query(
      'CREATE TABLE bare (operation_id uuid, seq bigint, bytes bytea NOT NULL, PRIMARY KEY (operation_id, seq))',
    );
    return new Served(child, url, token, pool, ownerUrl, serviceUrl);
  }

  async operation(records: readonly Sent[] = []): Promise<string> {
    const body = JSON.stringify({ name: 'Quillfen Growers', timeZone: 'America/Chicago' });
    const { operationId } = created.parse(JSON.parse(await this.ask('POST', '/operations', body)));
    for (const part of requests(records, 500)) await this.append(operationId, JSON.stringify({ records: part }));
    if (records.length > 0) await this.settle(operationId);
    return operationId;
  }

  /** Waits until nothing of the operation is left to be settled: it would be done during what is measured next. */
  async settle(operationId: string): Promise<void> {
    await this.ask('GET', `/operations/${operationId}/batches?limit=1`);
  }

  /** Appends, and fails unless everything was recorded. */
  async append(operationId: string, body: string): Promise<void> {
    const { results } = appended.parse(JSON.parse(await this.ask('POST', `/operations/${operationId}/records`, body)));
    const other = results.find(({ status }) => status !== 'recorded');
    if (other !== undefined) throw new Error(`not recorded: ${JSON.stringify(other)}`);
  }

  /** The text of an answer; fails where it is none of success. */
  async ask(method: string, path: string, body?: string): Promise<string> {
    return (await this.bytes(method, path, body)).toString('utf8');
  }

  bytes(method: string, path: string, body?: string): Promise<Buffer> {
    return new Promise((resolve, reject) => {
      const headers = {
        authorization: `Bearer ${this.token}`,
        ...(body === undefined
          ? {}
          : { 'content-type': 'application/json', 'content-length': Buffer.byteLength(body) }),
      };
      const asked = request(`${this.url}/api/v1${path}`, { method, headers, agent: this.#agent }, (answer) => {
        const chunks: Buffer[] = [];
        answer.on('data', (chunk: Buffer) => chunks.push(chunk));
        answer.on('end', () => {
          const all = Buffer.concat(chunks);
          if ((answer.statusCode ?? 500) < 300) resolve(all);
          else reject(new Error(`${method} ${path}: ${answer.statusCode} ${all.toString('utf8').slice(0, 500)}`));
        });
        answer.on('error', reject);
      });
      // A kept connection that the service closed while nobody looked: asked again, on another one. An append that had
      // arrived after all would be a duplicate, and `append` says so.
      asked.on('error', (error) => {
        if (asked.reusedSocket && 'code' in error && error.code === 'ECONNRESET')
          resolve(this.bytes(method, path, body));
        else reject(error);
      });
      asked.end(body);
    });
  }

  /** Milliseconds that the service takes to compute an operation's views anew and compare. */
  async rebuild(operationId: string): Promise<number> {
    return this.timed({ do: 'rebuild', operationId });
  }

  /** Milliseconds that something takes which is done in the service's process, without HTTP. */
  async timed(asked: Asked): Promise<number> {
    const answer = once(this.child, 'message');
    this.child.send(asked);
    const told = timed.parse((await answer)[0]);
    if ('failed' in told) throw new Error(`${asked.do}: ${told.failed}`);
    return told.ms;
  }

  /** Memory of the service's process in MB: now, and the most it ever had. */
  memory(): { now: number; most: number } {
    return memoryOf(this.child.pid ?? 0);
  }

  /** Processor time that the service's process has used so far, in milliseconds: what others do does not lengthen it. */
  processorMs(): number {
    const stat = readFileSync(`/proc/${this.child.pid ?? 0}/stat`, 'utf8');
    const [user, system] = stat
      .slice(stat.lastIndexOf(')') + 2)
      .split(' ')
      .slice(11, 13);
    // In the kernel's ticks for programs, a hundredth of a second on Linux.
    return (Number(user) + Number(system)) * 10;
  }

  async stop(): Promise<void> {
    await this.pool.end();
    this.#agent.destroy();
    const gone = once(this.child, 'exit');
    this.child.disconnect();
    await gone;
  }
}

/** Resident memory of a process in MB, from /proc: the database's processes are not in it. */
export function memoryOf(pid: number): { now: number; most: number } {
  const status = readFileSync(`/proc/${pid}/status`, 'utf8');
  const mb = (name: string): number => Number(new RegExp(`^${name}:\\s+(\\d+)`, 'm').exec(status)?.[1]) / 1024;
  return { now: mb('VmRSS'), most: mb('VmHWM') };
}
