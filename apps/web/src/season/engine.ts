import type * as Domain from '@furrowmark/domain';
import type * as Rules from '@furrowmark/rules';

/** The same core that the service runs, on this device: folding records and judging them. */
export interface Engine {
  readonly domain: typeof Domain;
  readonly rules: typeof Rules;
}

let loading: Promise<Engine> | null = null;

/** Loads the core once. It comes after the first picture: the page is drawn while it is on its way. */
export function loadEngine(): Promise<Engine> {
  loading ??= load().catch((error: unknown) => {
    loading = null;
    throw error;
  });
  return loading;
}

/** One after the other: making both at once would hold up touches for longer. */
async function load(): Promise<Engine> {
  // Asked for together, begun one after the other: it is smaller, so it is here first.
  const [, domain] = await Promise.all([import('./schemas.ts'), import('@furrowmark/domain')]);
  return { domain, rules: await import('@furrowmark/rules') };
}
