import { ask, type Answer } from '../http/ask.ts';
import { session } from '../session/session.ts';
import { database, type Reading } from '../store/database.ts';
import { changed } from '../store/held.ts';

type Trouble = Exclude<Answer, { kind: 'ok' }>;

const page = 1000;
/** Longest that writing holds the thread before touches are let through, ms. */
const longest = 6;
/** Pages of the past read in one go; the rest comes with the next exchanges. */
const pagesOfThePast = 5;

/**
 * Reads the log. The first time, the kit comes first: what the tank needs, small enough for one bar of reception. From
 * then on what is new is read at once, and the past behind the kit page by page, until this device has the whole log.
 */
export async function readOn(operationId: string): Promise<'all' | Trouble> {
  const trouble = await beginReading(operationId);
  if (trouble !== null) return trouble;
  // Right after the kit there is no news; what somebody looks at may be in the past.
  const read = await readingOf(operationId);
  const both = read.next === read.pastEnd ? [readPast, readNews] : [readNews, readPast];
  for (const part of both) {
    const done = await part(operationId);
    if (done !== 'all') return done;
  }
  return 'all';
}

/** Reads the kit, where nothing of the operation's log was ever read on this device. */
export async function beginReading(operationId: string): Promise<Trouble | null> {
  const read = await (await database()).get('read', operationId);
  return read === undefined ? readKit(operationId) : null;
}

async function readKit(operationId: string): Promise<Trouble | null> {
  const answer = await asDevice(`/operations/${operationId}/kit`);
  if (answer.kind === 'refused') {
    // No kit for this reader: the log from its beginning.
    await keep(operationId, [], { next: 0, past: 0, pastEnd: 0, since: Date.now() });
    return null;
  }
  if (answer.kind !== 'ok') return answer;
  const { entries, asOfSeq } = pageIn(answer.body);
  await keep(operationId, entries, { next: asOfSeq + 1, past: 0, pastEnd: asOfSeq + 1, since: Date.now() });
  return null;
}

async function readNews(operationId: string): Promise<'all' | Trouble> {
  for (;;) {
    const read = await readingOf(operationId);
    const answer = await asDevice(pathOf(operationId, read.next));
    if (answer.kind !== 'ok') return answer;
    const { entries, more, asOfSeq } = pageIn(answer.body);
    // A shorter log than remembered: another one was put in its place, and what was read of the old one is no guide.
    if (asOfSeq < read.next - 1) {
      await startAnew(operationId);
      return readOn(operationId);
    }
    const next = entries.reduce((highest, { seq }) => Math.max(highest, seq + 1), read.next);
    await keep(operationId, entries, { ...read, next });
    if (!more) return 'all';
  }
}

async function readPast(operationId: string): Promise<'all' | Trouble> {
  for (let pages = 0; pages < pagesOfThePast; pages += 1) {
    const read = await readingOf(operationId);
    if (read.past >= read.pastEnd) return 'all';
    const answer = await asDevice(pathOf(operationId, read.past));
    if (answer.kind !== 'ok') return answer;
    const { entries, more } = pageIn(answer.body);
    const before = entries.filter(({ seq }) => seq < read.pastEnd);
    const last = entries.at(-1)?.seq ?? read.pastEnd;
    await keep(operationId, before, { ...read, past: more ? last + 1 : read.pastEnd });
  }
  return 'all';
}

/** Reading by the clock is the device's own doing: it does not keep anybody signed in who walked away. */
const asDevice = (path: string): Promise<Answer> => ask(path, { as: session.get()?.token });

const pathOf = (operationId: string, from: number): string =>
  `/operations/${operationId}/records?limit=${String(page)}${from === 0 ? '' : `&after=${String(from - 1)}`}`;

async function readingOf(operationId: string): Promise<Omit<Reading, 'operationId' | 'heardAt'>> {
  const read = await (await database()).get('read', operationId);
  return { next: read?.next ?? 0, past: read?.past ?? 0, pastEnd: read?.pastEnd ?? 0, since: read?.since ?? 0 };
}

interface Entry {
  readonly id: string;
  readonly seq: number;
  readonly entry: unknown;
}

function pageIn(body: unknown): { entries: readonly Entry[]; more: boolean; asOfSeq: number } {
  const member = (value: unknown, name: string): unknown =>
    typeof value === 'object' && value !== null ? Reflect.get(value, name) : undefined;
  const records: unknown = member(body, 'records');
  const entries = (Array.isArray(records) ? records : []).flatMap((entry: unknown) => {
    const [id, seq] = [member(entry, 'id'), member(entry, 'seq')];
    return typeof id === 'string' && typeof seq === 'number' ? [{ id, seq, entry }] : [];
  });
  const asOfSeq = member(body, 'asOfSeq');
  return {
    entries,
    more: entries.length > 0 && typeof member(body, 'next') === 'string',
    asOfSeq: typeof asOfSeq === 'number' ? asOfSeq : (entries.at(-1)?.seq ?? Infinity),
  };
}

/** Keeps entries. A queued record leaves the queue in the same transaction: at no moment is it in neither. */
async function keep(
  operationId: string,
  read: readonly Entry[],
  how: Omit<Reading, 'operationId' | 'heardAt'>,
): Promise<void> {
  const db = await database();
  const transaction = db.transaction(['entries', 'read', 'queue'], 'readwrite');
  const queue = transaction.objectStore('queue');
  const entries = transaction.objectStore('entries');
  let since = performance.now();
  for (const { seq, entry } of read) {
    const put = entries.put({ operationId, seq, entry });
    if (performance.now() - since < longest) continue;
    // A thousand at once would hold up every touch. Only its own requests keep a transaction open.
    await put;
    since = performance.now();
  }
  const queued = new Set(await queue.getAllKeys());
  for (const { id } of read) if (queued.has(id)) await queue.delete(id);
  await transaction.objectStore('read').put({ operationId, ...how, heardAt: Date.now() });
  await transaction.done;
  await changed();
}

async function startAnew(operationId: string): Promise<void> {
  const db = await database();
  const transaction = db.transaction(['entries', 'read'], 'readwrite');
  await transaction.objectStore('entries').delete(IDBKeyRange.bound([operationId, 0], [operationId, Infinity]));
  await transaction.objectStore('read').delete(operationId);
  await transaction.done;
  await changed();
}
