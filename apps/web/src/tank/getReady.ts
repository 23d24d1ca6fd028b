import { onceQuiet } from '../app/onceQuiet.ts';
import { loadEngine } from '../season/engine.ts';

let begun = false;

/** After the first picture: what the next touches need is fetched and folded while nobody waits for it. */
export function getReady(): void {
  if (begun) return;
  begun = true;
  onceQuiet(200, () => {
    void ready().catch(() => {
      // No reception for a page that is not on the phone yet: it is fetched when it is opened.
      begun = false;
    });
  });
}

/** One after the other, the largest first: touches get through in between. */
async function ready(): Promise<void> {
  await loadEngine();
  await import('../season/useSeason.ts');
  await Promise.all([import('./TankPage.tsx'), import('./RecordPage.tsx')]);
}
