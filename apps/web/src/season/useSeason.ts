import { external, useExternalLater } from '../store/external.ts';
import { held, type Held } from '../store/held.ts';
import { loadEngine } from './engine.ts';
import { GrowingSeason, type LocalSeason } from './local.ts';
import { breath } from './breath.ts';

export type SeasonState =
  /** The core or the records are still on their way. */
  | { readonly kind: 'loading' }
  /** Nothing was ever read on this device and nothing is here: it needs reception once. */
  | { readonly kind: 'empty' }
  | { readonly kind: 'failed' }
  | ({ readonly kind: 'ready' } & LocalSeason);

const state = external<SeasonState>({ kind: 'loading' });
let growing: GrowingSeason | null = null;
let last: LocalSeason | null = null;
let folding: Promise<void> = Promise.resolve();

async function fold(now: Held | null): Promise<void> {
  if (now === null) return;
  if (now.next === 0 && now.queue.length === 0) {
    growing = last = null;
    state.set(now.heardAt === null ? { kind: 'empty' } : { kind: 'loading' });
    return;
  }
  try {
    const pause = breath();
    growing ??= new GrowingSeason(await loadEngine(), pause);
    const local = await growing.follow(now);
    if (local === last) return;
    const first = last?.season !== local.season;
    last = local;
    state.set({ kind: 'ready', ...local });
    if (first) await warm(local, pause);
  } catch (error) {
    console.error(error);
    growing = last = null;
    state.set({ kind: 'failed' });
  }
}

/** Folds the batches one by one while nobody waits for them, so that no touch has to wait for all of them later. */
async function warm({ season }: LocalSeason, pause: () => Promise<void> | undefined): Promise<void> {
  for (const { data } of season.ofType('batch.opened').toReversed()) {
    season.batch(data.batchId);
    await pause();
  }
}

function follow(): void {
  // Of several changes only the last matters.
  folding = folding.then(() => fold(held.get()));
}
// On its way before there is anything to fold.
void loadEngine().catch(() => undefined);
held.subscribe(follow);
// What this device holds may have been read before this part of the app was loaded.
follow();

/**
 * The season as this device knows it, folded here: the same with and without reception. Judging is the worker's
 * (`../judge`): it takes long, and a touch does not wait for it. Nor does it wait for a page to be drawn anew because the
 * season changed: that is done in between.
 */
export const useSeason = (): SeasonState => useExternalLater(state);
/** The same outside of a view. */
export const seasonNow = (): SeasonState => state.get();
