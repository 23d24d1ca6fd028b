import type { Unfinished } from '../tank/typed.ts';
import { stillMeant } from '../tank/unfinished.ts';
import { database } from './database.ts';

/** What was begun under this id; null where nothing was, it is older than a day, or it cannot be read. */
export async function unfinishedOf(id: string): Promise<Unfinished | null> {
  try {
    const db = await database();
    for (const each of await db.getAll('unfinished'))
      if (!stillMeant(each, Date.now())) await db.delete('unfinished', each.id);
    return (await db.get('unfinished', id)) ?? null;
  } catch {
    return null;
  }
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
