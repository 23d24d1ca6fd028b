import { useSyncExternalStore } from 'react';

const listeners = new Set<() => void>();
let now = tick();
let timer: ReturnType<typeof setInterval> | undefined;

/** Clocks count in minutes of brewing; ten seconds are fine enough, and spare the battery. */
function tick(): number {
  return Math.floor(Date.now() / 10_000) * 10_000;
}
function turn(): void {
  const next = tick();
  if (next === now) return;
  now = next;
  for (const listener of listeners) listener();
}
function subscribe(changed: () => void): () => void {
  listeners.add(changed);
  timer ??= setInterval(turn, 1_000);
  document.addEventListener('visibilitychange', turn);
  turn();
  return () => {
    listeners.delete(changed);
    if (listeners.size > 0) return;
    clearInterval(timer);
    timer = undefined;
    document.removeEventListener('visibilitychange', turn);
  };
}

/** The present, ms since 1970, moving on every ten seconds. */
export const useNow = (): number => useSyncExternalStore(subscribe, () => now);
