import type { Finding } from '@furrowmark/rules';
import { useEffect, useState } from 'react';
import type { Ready } from '../ready.tsx';

let last: { readonly season: unknown; readonly version: number; readonly found: readonly Finding[] } | null = null;

/** Every finding of the season; null while they are worked out. What was known before stays in view meanwhile. */
export function useFindings({ engine, season }: Ready): readonly Finding[] | null {
  const { version } = season;
  const [found, setFound] = useState(last?.season === season ? last.found : null);
  useEffect(() => {
    if (last?.season === season && last.version === version) {
      setFound(last.found);
      return;
    }
    // After the page is drawn: a whole season takes a moment.
    const timer = setTimeout(() => {
      last = { season, version, found: engine.rules.findings(season, Date.now()) };
      setFound(last.found);
    }, 30);
    return () => clearTimeout(timer);
  }, [engine, season, version]);
  return found;
}
