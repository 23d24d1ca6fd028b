import { onceQuiet } from '../app/onceQuiet.ts';
import type { View } from '../app/view.ts';
import { loadEngine } from '../season/engine.ts';

let begun = false;

/** After the first picture: what the next touches need is fetched and folded while nobody waits for it. */
export function getReady(views: readonly View[]): void {
  if (begun) return;
  begun = true;
  onceQuiet(200, () => {
    void ready(views).catch(() => {
      // No reception for a page that is not on the phone yet: it is fetched when it is opened.
      begun = false;
    });
  });
}

/** One after the other, the largest first: touches get through in between. */
async function ready(views: readonly View[]): Promise<void> {
  const { domain } = await loadEngine();
  await import('../season/useSeason.ts');
  for (const view of views) if (view.offered === 'bar' || view.path.startsWith('/tank/')) await view.getReady();
  // The first check makes the shapes that it checks against.
  domain.parseDraft({}, { now: Date.now() });
}
