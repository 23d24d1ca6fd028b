import { external, useExternal } from '../store/external.ts';
import { held, type Held } from '../store/held.ts';
import { loadEngine } from './engine.ts';
import { foldLocal, type LocalSeason } from './local.ts';

export type SeasonState =
  /** The core or the records are still on their way. */
  | { readonly kind: 'loading' }
  /** Nothing was ever read on this device and nothing is here: it needs reception once. */
  | { readonly kind: 'empty' }
  | { readonly kind: 'failed' }
  | ({ readonly kind: 'ready'; readonly heardAt: number | null } & LocalSeason);

const state = external<SeasonState>({ kind: 'loading' });
let last: { held: Held; local: LocalSeason } | null = null;
let folding: Promise<void> = Promise.resolve();

async function fold(now: Held | null): Promise<void> {
  if (now === null) return;
  if (now.entries.length === 0 && now.queue.length === 0) {
    last = null;
    state.set(now.heardAt === null ? { kind: 'empty' } : { kind: 'loading' });
    return;
  }
  try {
    const local = foldLocal(await loadEngine(), now, last);
    last = { held: now, local };
    state.set({ kind: 'ready', heardAt: now.heardAt, ...local });
  } catch (error) {
    console.error(error);
    state.set({ kind: 'failed' });
  }
}

function follow(): void {
  folding = folding.then(() => fold(held.get()));
}
held.subscribe(follow);
// What this device holds may have been read before this part of the app was loaded.
follow();

/** The season as this device knows it, folded and judged here: the same with and without reception. */
export const useSeason = (): SeasonState => useExternal(state);
/** The same outside of a view. */
export const seasonNow = (): SeasonState => state.get();
