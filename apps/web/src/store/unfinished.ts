import type { Unfinished, UnfinishedEntries } from '../tank/typed.ts';
import { stillMeant } from '../tank/unfinished.ts';
import { database } from './database.ts';

/** The record form that was begun under this id; null where none was, it is older than a day, or it cannot be read. */
export async function unfinishedOf(id: string): Promise<Unfinished | null> {
  const found = await begunUnder(id);
  return found !== null && 'answers' in found ? found : null;
}

/** The same of any other form. */
export async function entriesOf(id: string): Promise<UnfinishedEntries | null> {
  const found = await begunUnder(id);
  return found !== null && 'entries' in found ? found : null;
}

async function begunUnder(id: string): Promise<Unfinished | UnfinishedEntries | null> {
  try {
    const found = await (await database()).get('unfinished', id);
    void forgetOld().catch(() => undefined);
    return found !== undefined && stillMeant(found, Date.now()) ? found : null;
  } catch {
    return null;
  }
}

const hour = 3_600_000;
let lookedAt = -Infinity;

/** Once an hour. Photos may be in them: no form waits for all of them to be read. */
async function forgetOld(): Promise<void> {
  if (Date.now() - lookedAt < hour) return;
  lookedAt = Date.now();
  const db = await database();
  for (const each of await db.getAll('unfinished'))
    if (!stillMeant(each, Date.now())) await db.delete('unfinished', each.id);
}

/** Keeps a form that was begun. Nothing depends on it: it is what was typed, never what was recorded. */
export function keepUnfinished(begun: Unfinished | UnfinishedEntries): void {
  void database()
    .then((db) => db.put('unfinished', begun))
    .catch(() => undefined);
}

/** Recorded, or begun anew. */
export function forgetUnfinished(id: string): void {
  void database()
    .then((db) => db.delete('unfinished', id))
    .catch(() => undefined);
}

/** Whoever signs out leaves nothing half said behind. */
export function forgetAllUnfinished(): void {
  void database()
    .then((db) => db.clear('unfinished'))
    .catch(() => undefined);
}
