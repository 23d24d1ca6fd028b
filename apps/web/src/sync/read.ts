import { memberOf } from '../http/read.ts';
import { database, type Reading } from '../store/database.ts';
import { changed } from '../store/held.ts';
import { asDevice, pageIn, pathOf, type Entry, type Trouble } from './pages.ts';

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
    const erased = entries.flatMap(({ entry }) => erasedIn(entry));
    const withheld = await withoutNames(operationId, erased);
    if ('kind' in withheld) return withheld;
    // With names in it the season that was folded is no guide either: it is folded anew.
    const begun = erased.length > 0 ? { since: Date.now() } : {};
    await keep(operationId, [...withheld, ...entries], { ...read, next, ...begun });
    if (!more) return 'all';
  }
}

/** The person that an entry erases. */
const erasedIn = (entry: unknown): readonly string[] => {
  const personId = memberOf(memberOf(entry, 'data'), 'personId');
  return memberOf(entry, 'type') === 'person.erased' && typeof personId === 'string' ? [personId] : [];
};

/**
 * What this device holds of persons who were erased, as the service gives it now: their names are sealed. Before the
 * erasure itself is kept here, so that what fails is tried again.
 */
async function withoutNames(operationId: string, persons: readonly string[]): Promise<readonly Entry[] | Trouble> {
  const found: Entry[] = [];
  for (const personId of persons) {
    for (let from = 0, more = true; more;) {
      const named = `&about=${personId}&type=person.registered,person.revised,record.amended`;
      const answer = await asDevice(`${pathOf(operationId, from)}${named}`);
      if (answer.kind !== 'ok') return answer;
      const page = pageIn(answer.body);
      found.push(...page.entries);
      from = (page.entries.at(-1)?.seq ?? from) + 1;
      more = page.more;
    }
  }
  if (found.length === 0) return found;
  // What has not been read yet comes in its turn.
  const keys = await (
    await database()
  ).getAllKeys('entries', IDBKeyRange.bound([operationId, 0], [operationId, Infinity]));
  const here = new Set(keys.map(([, seq]) => seq));
  return found.filter(({ seq }) => here.has(seq));
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

async function readingOf(operationId: string): Promise<Omit<Reading, 'operationId' | 'heardAt'>> {
  const read = await (await database()).get('read', operationId);
  return { next: read?.next ?? 0, past: read?.past ?? 0, pastEnd: read?.pastEnd ?? 0, since: read?.since ?? 0 };
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
