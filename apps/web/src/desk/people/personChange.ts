import type { DataOf } from '@furrowmark/domain';

type Registered = DataOf<'person.registered'>;

/** What the form has of a person; empty where nothing is written. */
export interface PersonWritten {
  readonly name: string;
  readonly initials: string;
  readonly title: string;
  readonly address: string;
  readonly language: string;
}

/** The form begins with what is known. */
export function writtenOf({ personal, language }: Pick<Registered, 'personal' | 'language'>): PersonWritten {
  const { name, initials = '', title = '', address = '' } = 'name' in personal ? personal : { name: '' };
  return { name, initials, title, address, language: language ?? '' };
}

/** The sealable member as it is sent: open, without what was left empty. The log seals it. */
export const personalIn = ({ name, initials, title, address }: PersonWritten): Readonly<Record<string, string>> =>
  Object.fromEntries(
    Object.entries({ name, initials, title, address }).filter(([of, text]) => of === 'name' || text.trim() !== ''),
  );

/**
 * What a revision names: the personal values as a whole where one of them is another now, since they are sealed as a
 * whole; the language where it is another. null: nothing has changed.
 */
export function revisionOf(before: PersonWritten, now: PersonWritten): Readonly<Record<string, unknown>> | null {
  const personal = personalIn(now);
  const changes = {
    ...(JSON.stringify(personal) === JSON.stringify(personalIn(before)) ? {} : { personal }),
    ...(now.language === before.language || now.language === '' ? {} : { language: now.language }),
  };
  return Object.keys(changes).length === 0 ? null : changes;
}
