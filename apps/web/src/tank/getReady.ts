let begun = false;

/** After the first picture: what the next touches need is fetched and folded while nobody waits for it. */
export function getReady(): void {
  if (begun) return;
  begun = true;
  setTimeout(() => {
    void Promise.all([import('./TankPage.tsx'), import('./RecordPage.tsx'), import('../season/useSeason.ts')]).catch(
      () => {
        // No reception for a page that is not on the phone yet: it is fetched when it is opened.
        begun = false;
      },
    );
  }, 100);
}
