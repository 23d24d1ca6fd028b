import type { Person } from '@furrowmark/domain';
import type { Engine } from '../season/engine.ts';

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
