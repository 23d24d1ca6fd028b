import { spawn } from 'node:child_process';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { z } from 'zod';
import { readyCluster } from '../support/cluster.ts';
import { attemptsFrom, type Attempt } from './attempts.ts';
import { faultOf } from './judge.ts';
import { mustBeTried } from './kinds.ts';
import { send, type Reply } from './send.ts';

const ground = z.object({
  url: z.string(),
  operationId: z.string(),
  tokens: z.record(z.string(), z.string()),
  stranger: z.string(),
  ids: z.array(z.string()),
  examples: z.array(z.looseObject({})),
});
/** A service in a process of its own, and what there is in it. */
export type Tried = z.infer<typeof ground> & {
  readonly end: () => Promise<number | null>;
  /** What its process holds just now, garbage collected before. */
  readonly memory: () => Promise<Memory>;
};

const memoryUsage = z.object({ rss: z.number(), heapUsed: z.number(), external: z.number() });
/** Bytes: resident, in objects that are referred to, outside the heap. */
export type Memory = z.output<typeof memoryUsage>;

/** Starts a service to be tried, on a data folder of its own. */
export async function startTried(dataDir: string): Promise<Tried> {
  const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url));
  await readyCluster(dataDir);
  const child = spawn(
    process.execPath,
    ['--expose-gc', '--import', here('../../apps/api/register.mjs'), here('./serving.ts'), dataDir],
    { stdio: ['ignore', 'pipe', 'inherit'] },
  );
  const gone = new Promise<number | null>((resolve) => child.once('exit', resolve));
  const lines = createInterface(child.stdout);
  const line = (): Promise<string> => new Promise((resolve) => lines.once('line', resolve));
  const first = await Promise.race([
    line(),
    gone.then((code) => {
      throw new Error(`the service ended with ${code} before it answered`);
    }),
  ]);
  const end = (): Promise<number | null> => {
    child.kill('SIGTERM');
    return gone;
  };
  const memory = async (): Promise<Memory> => {
    const told = line();
    child.kill('SIGUSR2');
    return memoryUsage.parse(JSON.parse(await told));
  };
  return { ...ground.parse(JSON.parse(first)), end, memory };
}

/** What a trial gave. */
export interface Outcome {
  readonly sent: number;
  /** How many requests each address of the description got. */
  readonly routes: ReadonlyMap<string, number>;
  readonly statuses: ReadonlyMap<string, number>;
  /** What is wrong, each with the request that brought it about. */
  readonly faults: readonly string[];
  /** What the service says it recorded in the operation, and what it was sent as: by id. */
  readonly recorded: ReadonlyMap<string, unknown>;
  /** Requests, not appends, that may have made the server write a record of its own. */
  readonly others: number;
  /** The request that took longest. */
  readonly slowest: { readonly route: string; readonly milliseconds: number };
  /** What the service held after a third of the requests, after two, and at the end; and how many records there were. */
  readonly memory: readonly (Memory & { readonly records: number })[];
  /** How many requests of each kind that must be tried were sent. */
  readonly kinds: ReadonlyMap<string, number>;
}

const atOnce = 6;

/** Requests to an address in a round: most where records come in, few where each answer is a document to be drawn. */
const perRound = (route: string): number => {
  if (route.endsWith('/records') && route.startsWith('POST')) return 80;
  if (route.endsWith('/check')) return 16;
  return route.includes('/reports/') ? (route.endsWith('.pdf') ? 1 : 2) : 8;
};

/** Sends so many requests, made from the seed alone, a few at a time, and judges every answer. */
export async function trial(tried: Tried, document: unknown, count: number, seed: number): Promise<Outcome> {
  const { routes, each } = attemptsFrom(document, tried);
  const statuses = new Map<string, number>();
  const byRoute = new Map<string, number>(routes.map((route) => [route, 0]));
  const faults: string[] = [];
  const recorded = new Map<string, unknown>();
  let others = 0;
  let sent = 0;
  const memory: (Memory & { records: number })[] = [];
  const kinds = new Map<string, number>(Object.keys(mustBeTried).map((name) => [name, 0]));
  let slowest = { route: '', milliseconds: 0 };

  const one = async (attempt: Attempt, place: string): Promise<void> => {
    for (const [name, isOne] of Object.entries(mustBeTried)) {
      if (isOne(attempt)) kinds.set(name, (kinds.get(name) ?? 0) + 1);
    }
    const began = performance.now();
    const reply = await send(tried.url, attempt);
    const took = performance.now() - began;
    if (took > slowest.milliseconds) slowest = { route: attempt.route, milliseconds: Math.round(took) };
    byRoute.set(attempt.route, (byRoute.get(attempt.route) ?? 0) + 1);
    const said = reply.kind === 'answer' ? String(reply.status) : reply.kind;
    statuses.set(said, (statuses.get(said) ?? 0) + 1);
    const fault = faultOf(attempt, reply);
    if (fault !== null) faults.push(`${place}: ${fault}: ${shown(attempt)}`);
    if (reply.kind === 'cut off here') others += 1;
    if (reply.kind !== 'answer' || reply.status >= 300 || attempt.method === 'GET') return;
    const results = appended.safeParse(jsonOf(reply));
    if (!results.success) {
      others += 1;
      return;
    }
    const bodies = sentRecords.parse(JSON.parse(Buffer.from(attempt.body ?? '').toString('utf8'))).records;
    results.data.results.forEach(({ id, status }, i) => {
      if (status === 'recorded' && id !== null) recorded.set(id, bodies[i]);
    });
  };

  for (let round = 0; sent < count; round += 1) {
    const queue = each
      .flatMap((arbitrary, i) =>
        fc
          .sample(arbitrary, { seed: seed + round * 1_000 + i, numRuns: perRound(routes[i] ?? '') })
          .map((attempt, k) => ({ attempt, i, k })),
      )
      .sort((a, b) => ((a.k * 83 + a.i) % 80) - ((b.k * 83 + b.i) % 80))
      .slice(0, count - sent);
    let next = 0;
    const worker = async (): Promise<void> => {
      for (let at = next++; at < queue.length; at = next++) {
        const { attempt, i, k } = queue[at] ?? {};
        if (attempt !== undefined) await one(attempt, `seed ${seed}, round ${round}, route ${i}, number ${k}`);
      }
    };
    await Promise.all(Array.from({ length: atOnce }, worker));
    sent += queue.length;
    while (memory.length < 3 && sent >= (count * (memory.length + 1)) / 3) {
      memory.push({ ...(await tried.memory()), records: recorded.size });
    }
  }
  return { slowest, sent, routes: byRoute, statuses, faults, recorded, others, memory, kinds };
}

const appended = z.object({ results: z.array(z.looseObject({ id: z.string().nullable(), status: z.string() })) });
const sentRecords = z.looseObject({ records: z.array(z.unknown()) });

function jsonOf(reply: Reply): unknown {
  try {
    return reply.kind === 'answer' ? JSON.parse(reply.body.toString('utf8')) : undefined;
  } catch {
    return undefined;
  }
}

const shown = ({ method, target, headers, body, trick }: Attempt): string =>
  JSON.stringify({
    ...{ trick, method, target: target.slice(0, 300) },
    headers: Object.fromEntries(
      Object.entries(headers).map(([name, value]) => [name, name === 'authorization' ? '…' : value.slice(0, 60)]),
    ),
    body: typeof body === 'string' ? body.slice(0, 1_500) : body === null ? null : `${body.length} bytes`,
  });
