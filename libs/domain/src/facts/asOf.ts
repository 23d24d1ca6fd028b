import type { Instant } from './time.ts';
import type { Registered } from './types.ts';

/** What a registered thing was at an instant: its registration, with each revision up to then applied. */
export function asOf<Data>(thing: Pick<Registered<string, Data>, 'registered' | 'revisions'>, instant: Instant): Data {
  let now = thing.registered;
  for (const revision of thing.revisions) if (revision.from <= instant) now = { ...now, ...revision.changes };
  return now;
}
