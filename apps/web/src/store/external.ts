import { startTransition, useEffect, useState, useSyncExternalStore } from 'react';
import type { External } from './value.ts';

export { external, type External } from './value.ts';

/** The value as it is now; the view is drawn again when it changes. */
export const useExternal = <T>(from: External<T>): T => useSyncExternalStore(from.subscribe, from.get);

/**
 * The value as it is, or was a moment ago: what is drawn anew when it changes is drawn in between touches, and touches do
 * not wait for it. For values from which whole pages are drawn.
 */
export function useExternalLater<T>(from: External<T>): T {
  const [value, setValue] = useState(from.get);
  useEffect(() => {
    const follow = (): void => startTransition(() => setValue(from.get));
    follow();
    return from.subscribe(follow);
  }, [from]);
  return value;
}
