import { ask, type Answer } from '../http/ask.ts';
import { database } from '../store/database.ts';
import { changed } from '../store/held.ts';

const page = 1000;

/**
 * Reads the log from where this device stopped, page by page, each kept at once. A queued record leaves the queue in
 * the same transaction that keeps it as an entry of the log: at no moment is it in neither.
 */
export async function readOn(operationId: string): Promise<'all' | Exclude<Answer, { kind: 'ok' }>> {
  for (;;) {
    const db = await database();
    const next = (await db.get('read', operationId))?.next ?? 0;
    const after = next === 0 ? '' : `&after=${String(next - 1)}`;
    const answer = await ask(`/operations/${operationId}/records?limit=${String(page)}${after}`);
    if (answer.kind !== 'ok') return answer;
    const { entries, more, asOfSeq } = pageIn(answer.body);
    // A shorter log than remembered: another one was put in its place, and what was read of the old one is no guide.
    const replaced = asOfSeq < next - 1;
    await keep(operationId, entries, replaced ? 0 : next, replaced);
    if (!more && !replaced) return 'all';
  }
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

async function keep(operationId: string, read: readonly Entry[], from: number, replaced: boolean): Promise<void> {
  const db = await database();
  const transaction = db.transaction(['entries', 'read', 'queue'], 'readwrite');
  const entries = transaction.objectStore('entries');
  if (replaced) await entries.delete(IDBKeyRange.bound([operationId, 0], [operationId, Infinity]));
  let next = from;
  const gone: string[] = [];
  for (const { id, seq, entry } of replaced ? [] : read) {
    void entries.put({ operationId, seq, entry });
    next = Math.max(next, seq + 1);
    const waiting = await transaction.objectStore('queue').getKey(id);
    if (waiting !== undefined) gone.push(id);
  }
  for (const id of gone) await transaction.objectStore('queue').delete(id);
  await transaction.objectStore('read').put({ operationId, next, heardAt: Date.now() });
  await transaction.done;
  if (read.length > 0 || replaced) await changed();
}
