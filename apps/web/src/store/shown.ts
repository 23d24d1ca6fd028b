import { database } from './database.ts';

/** The last pictures are written at most so often, ms: the clock moves them all the time. */
const rarely = 30_000;
let wrote = { operationId: '', at: -Infinity };
let later: ReturnType<typeof setTimeout> | undefined;

/** What was shown last of an operation; null where nothing was, or it cannot be read. */
export async function lastShown(operationId: string): Promise<unknown> {
  if (operationId === '') return null;
  try {
    return (await (await database()).get('shown', operationId))?.tanks ?? null;
  } catch {
    return null;
  }
}

/** Keeps what is shown for the next start. Nothing depends on it: it is what was judged, never what was recorded. */
export function keepShown(operationId: string, tanks: unknown): void {
  if (operationId === '') return;
  clearTimeout(later);
  const same = wrote.operationId === operationId;
  later = setTimeout(
    () => {
      wrote = { operationId, at: performance.now() };
      void database()
        .then((db) => db.put('shown', { operationId, tanks }))
        .catch(() => undefined);
    },
    same ? Math.max(500, wrote.at + rarely - performance.now()) : 500,
  );
}
