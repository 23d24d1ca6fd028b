import type { Unfinished } from '../tank/typed.ts';
import { stillMeant } from '../tank/unfinished.ts';
import { database } from './database.ts';

/** What was begun under this id; null where nothing was, it is older than a day, or it cannot be read. */
export async function unfinishedOf(id: string): Promise<Unfinished | null> {
  try {
    const found = await (await database()).get('unfinished', id);
    void forgetOld().catch(() => undefined);
    return found !== undefined && stillMeant(found, Date.now()) ? found : null;
  } catch {
    return null;
  }
}

/** Photos may be in them: no form waits for all of them to be read. */
async function forgetOld(): Promise<void> {
  const db = await database();
  for (const each of await db.getAll('unfinished'))
    if (!stillMeant(each, Date.now())) await db.delete('unfinished', each.id);
}

/** Keeps a form that was begun. Nothing depends on it: it is what was typed, never what was recorded. */
export function keepUnfinished(begun: Unfinished): void {
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
