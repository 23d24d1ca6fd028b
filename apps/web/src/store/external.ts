import { useSyncExternalStore } from 'react';
import type { External } from './value.ts';

export { external, type External } from './value.ts';

/** The value as it is now; the view is drawn again when it changes. */
export const useExternal = <T>(from: External<T>): T => useSyncExternalStore(from.subscribe, from.get);
