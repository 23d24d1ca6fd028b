import { mentions, recordFromLog, sealedIn, UnreadableEntry, type LogRecord } from '@furrowmark/domain';
import { emptyRoot, equalBytes, leafHash, memberOf, TreeAppender } from '@furrowmark/log';
import type { EntityManager } from 'typeorm';
import { z } from 'zod';
import { int8, readHead } from '../log/index.ts';

const buffer = z.instanceof(Buffer);
const rows = z.array(
  z.object({
    seq: int8,
    record_id: z.string(),
    type: z.string(),
    occurred_at: z.date(),
    recorded_at: z.date(),
    leaf_hash: buffer,
    bytes: buffer,
  }),
);
const namedRows = z.array(z.object({ seq: int8, subjects: z.string() }));
const nodes = z.array(z.object({ level: z.number(), index: int8, hash: buffer }));
const seqs = z.array(z.object({ seq: int8 }));
const inOnePage = 1_000;
const mostSaid = 50;

/** A place where what is kept beside the log is not what follows from the entries' bytes. */
export interface IndexFault {
  /** The entry; null where none is named. */
  readonly seq: number | null;
  readonly what: string;
  /** Mentions are written anew by `rebuild`; the log, its columns and its tree are never changed. */
  readonly mendable: boolean;
}

/** An entry as read; null where its bytes are no record that this version can read. */
export interface ReadEntry {
  readonly seq: number;
  readonly record: LogRecord | null;
  /** Its bytes, where values of the record are sealed: they are opened in them. */
  readonly sealed: Buffer | null;
}

/**
 * Computes from the hashed bytes everything that is kept beside them as columns, mentions, tree and head, and compares. At
 * most {@link mostSaid} places are named. Hands over the entries that it read, in their order.
 */
export async function indexFaults(
  manager: EntityManager,
  operationId: string,
): Promise<{ readonly faults: IndexFault[]; readonly entries: ReadEntry[] }> {
  const entries: ReadEntry[] = [];
  const faults: IndexFault[] = [];
  const say = (seq: number | null, what: string, mendable = false): void => {
    if (faults.length < mostSaid) faults.push({ seq, what, mendable });
  };
  const head = await readHead(manager, operationId);
  const stored = await storedNodes(manager, operationId);
  const tree = new TreeAppender(undefined, ({ level, index, hash }) => {
    if (level === 0) return;
    const place = `${level}/${index}`;
    const kept = stored.get(place);
    stored.delete(place);
    if (kept === undefined) say(null, `node ${place} of the tree is missing`);
    else if (!equalBytes(kept, hash)) {
      const [from, to] = [index * 2 ** level, (index + 1) * 2 ** level];
      say(null, `node ${place} of the tree is not the one over entries ${from} to ${to - 1}`);
    }
  });
  let latest: number | null = null;
  let expected = 0;
  const named = await NamedInOrder.open(manager, operationId);
  await manager.query(declareEntries, [operationId]);
  for await (const page of pagesOf(manager, 'entries', rows)) {
    for (const row of page) {
      if (row.seq !== expected) say(expected, `entry ${expected} is missing: entry ${row.seq} stands in its place`);
      expected = row.seq + 1;
      const hash = leafHash(row.bytes);
      tree.append(hash);
      latest = row.recorded_at.getTime();
      const entry = parsed(row.bytes);
      const record = recordIn(entry);
      const sealed = record !== null && sealedIn(record).length > 0;
      entries.push({ seq: row.seq, record, sealed: sealed ? row.bytes : null });
      for (const { what, mendable } of rowFaults(row, hash, entry, record, await named.of(row.seq)))
        say(row.seq, `entry ${row.seq}: ${what}`, mendable);
    }
  }
  await manager.query('CLOSE entries');
  await named.close();
  for (const place of stored.keys()) say(null, `node ${place} of the tree belongs to no entries`);
  if (head === null) say(null, 'the log has no head');
  else {
    if (head.size !== expected) say(null, `the head says ${head.size} entries, but ${expected} are there`);
    if (!equalBytes(head.root, expected === 0 ? emptyRoot() : tree.root()))
      say(null, 'the root in the head is not that of the entries');
    if (!equalBytes(head.frontier, Buffer.concat(tree.frontier().edge)))
      say(null, 'the right edge of the tree in the head is not that of the entries');
    if (latest !== null && head.recordedAt !== latest)
      say(null, 'the head does not say when the last entry was recorded');
  }
  const dangling = seqs.parse(
    await manager.query(
      `SELECT DISTINCT m.seq FROM mention m WHERE m.operation_id = $1 AND NOT EXISTS (
         SELECT FROM log_entry e WHERE e.operation_id = m.operation_id AND e.seq = m.seq) ORDER BY 1 LIMIT 20`,
      [operationId],
    ),
  );
  for (const { seq } of dangling) say(seq, `what is named by entry ${seq} is kept, but not the entry`, true);
  return { faults, entries };
}

const declareEntries = `
  DECLARE entries NO SCROLL CURSOR FOR
    SELECT seq, record_id, type, occurred_at, recorded_at, leaf_hash, bytes
      FROM log_entry WHERE operation_id = $1 ORDER BY seq`;
const declareNamed = `
  DECLARE named NO SCROLL CURSOR FOR
    SELECT seq, string_agg(subject_id::text, ' ') AS subjects FROM mention WHERE operation_id = $1 GROUP BY seq ORDER BY seq`;

/** The rows of a cursor, a page at a time; the database reads the next page while one is worked on. */
async function* pagesOf<T>(manager: EntityManager, cursor: string, read: z.ZodType<T[]>): AsyncGenerator<T[]> {
  const ask = (): Promise<unknown> => {
    const asked = manager.query<unknown>(`FETCH ${inOnePage} FROM ${cursor}`);
    // Nobody may be waiting for it any more when it fails.
    asked.catch(() => undefined);
    return asked;
  };
  for (let next = ask(); ;) {
    const page = read.parse(await next);
    if (page.length === 0) return;
    next = ask();
    yield page;
  }
}

/**
 * What is kept as named by each entry, in the order of the entries. They are kept by what they name: asked for entry by
 * entry, each would be looked for among all. So they are put in order once and taken a page at a time.
 */
class NamedInOrder {
  #page: z.output<typeof namedRows> = [];
  #at = 0;
  readonly #pages: AsyncGenerator<z.output<typeof namedRows>>;

  private constructor(private readonly manager: EntityManager) {
    this.#pages = pagesOf(manager, 'named', namedRows);
  }

  static async open(manager: EntityManager, operationId: string): Promise<NamedInOrder> {
    await manager.query(declareNamed, [operationId]);
    return new NamedInOrder(manager);
  }

  async close(): Promise<void> {
    await this.manager.query('CLOSE named');
  }

  /** What an entry names; entries are asked for in order. */
  async of(seq: number): Promise<readonly string[]> {
    for (;;) {
      const next = this.#page[this.#at];
      if (next === undefined) {
        const { done, value } = await this.#pages.next();
        if (done === true) return [];
        [this.#page, this.#at] = [value, 0];
      } else if (next.seq > seq) return [];
      else {
        this.#at += 1;
        if (next.seq === seq) return next.subjects.split(' ');
      }
    }
  }
}

async function storedNodes(manager: EntityManager, operationId: string): Promise<Map<string, Buffer>> {
  const found = nodes.parse(
    await manager.query('SELECT level, index, hash FROM tree_node WHERE operation_id = $1', [operationId]),
  );
  return new Map(found.map(({ level, index, hash }) => [`${level}/${index}`, hash]));
}

function rowFaults(
  row: z.output<typeof rows>[number],
  hash: Uint8Array,
  entry: unknown,
  record: LogRecord | null,
  subjects: readonly string[],
): { what: string; mendable: boolean }[] {
  const faults: { what: string; mendable: boolean }[] = [];
  const say = (what: string, mendable = false): void => void faults.push({ what, mendable });
  if (!equalBytes(row.leaf_hash, hash)) say('the leaf hash beside it is not that of its bytes');
  if (entry === undefined) {
    say('its bytes are not JSON');
    return faults;
  }
  const written = (name: string): unknown => memberOf(entry, name);
  if (written('seq') !== row.seq) say(`it stands at ${row.seq}, but its bytes say ${String(written('seq'))}`);
  if (written('id') !== row.record_id) say('the id beside it is not the one in its bytes');
  if (written('type') !== row.type) say('the type beside it is not the one in its bytes');
  if (Date.parse(String(written('occurredAt'))) !== row.occurred_at.getTime())
    say('the time beside it at which it happened is not the one in its bytes');
  if (Date.parse(String(written('recordedAt'))) !== row.recorded_at.getTime())
    say('the time beside it at which it was recorded is not the one in its bytes');
  const named = record === null ? null : mentionsOf(record);
  if (named === null) say('its bytes are no record that this version can read');
  else if (named.size !== subjects.length || subjects.some((id) => !named.has(id)))
    say('what it names is not what is kept as named by it', true);
  return faults;
}

/** What a record names. */
export const mentionsOf = (record: LogRecord): ReadonlySet<string> => new Set(mentions(record));

/** The record that an entry is; null where this version can read none in it. */
function recordIn(entry: unknown): LogRecord | null {
  try {
    return recordFromLog(entry);
  } catch (error) {
    if (error instanceof UnreadableEntry || error instanceof z.ZodError) return null;
    throw error;
  }
}

function parsed(bytes: Buffer): unknown {
  try {
    const value: unknown = JSON.parse(bytes.toString('utf8'));
    return value;
  } catch {
    return undefined;
  }
}
