import type { Person } from '@furrowmark/domain';
import type { Engine } from '../season/engine.ts';
import { settings } from '../session/settings.ts';

/** What is known of a person by name now, revisions included; null where it is sealed or erased. */
export function personalOf({ domain }: Pick<Engine, 'domain'>, person: Person | undefined) {
  if (person === undefined) return null;
  const { personal } = domain.asOf(person, Date.now());
  return 'name' in personal ? personal : null;
}

/** The name; the beginning of the id where there is none (any more). */
export const personName = (engine: Pick<Engine, 'domain'>, person: Person): string =>
  personalOf(engine, person)?.name ?? person.id.slice(0, 8);

/** Initials, or the name where there are none; empty where neither is known (any more). */
export function initialsOf(engine: Pick<Engine, 'domain'>, person: Person | undefined): string {
  const personal = personalOf(engine, person);
  return personal === null ? '' : (personal.initials ?? personal.name);
}

interface People {
  readonly person: (id: string) => { readonly retired?: unknown; readonly erased?: unknown } | undefined;
}

/**
 * Who holds this device, as it remembers; null once that person has left or was erased, wherever that was recorded: nothing
 * more is written down as theirs, and nothing keeps their name beyond its time.
 */
export function whoHere(season: People, who: string | null = settings.get().who): string | null {
  const person = who === null ? undefined : season.person(who);
  return person?.retired === undefined && person?.erased === undefined ? who : null;
}
