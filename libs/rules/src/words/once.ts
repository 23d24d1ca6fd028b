import type { Said } from './message.ts';

/** Each part of a sentence once, in order. */
export function once<T extends string | Said>(parts: readonly T[]): T[] {
  const seen = new Set<string>();
  return parts.filter((part) => {
    const key = JSON.stringify(part);
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}
