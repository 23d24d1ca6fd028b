import type { OpenSeason } from '@furrowmark/domain';

/** What is worked out from all of a season, kept until the season changes. */
export function keptWith<T>(work: (season: OpenSeason) => T): (season: OpenSeason) => T {
  const kept = new WeakMap<OpenSeason, { readonly version: number; readonly value: T }>();
  return (season) => {
    const before = kept.get(season);
    if (before?.version === season.version) return before.value;
    const value = work(season);
    kept.set(season, { version: season.version, value });
    return value;
  };
}
