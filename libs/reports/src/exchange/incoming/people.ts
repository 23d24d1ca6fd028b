import { asOf } from '@furrowmark/domain';
import { filled, same, type TableKind } from './kind.ts';

/**
 * People who record, apply and review. Their ids are new ones that follow from nothing: an id made of a name would let
 * anybody who has the log try names against it. Addresses of mail and telephone numbers have no column: they never enter
 * a record.
 */
export const people: TableKind = {
  as: 'people',
  title: 'People',
  members: [
    {
      name: 'name',
      title: 'Name',
      needed: true,
      said: ['full name', 'person', 'employee', 'nombre', 'nombre completo'],
    },
    { name: 'initials', title: 'Initials', needed: false, said: ['iniciales'] },
    { name: 'title', title: 'Title', needed: false, said: ['role', 'position', 'job', 'job title', 'puesto', 'cargo'] },
    { name: 'address', title: 'Address', needed: false, said: ['postal address', 'direccion', 'domicilio'] },
    { name: 'language', title: 'Language', needed: false, said: ['idioma'] },
  ],
  key: (row) => row.text('name')?.toLowerCase(),
  make(row, { season, newId }) {
    const name = row.needed('name');
    const said = row.text('language');
    const language = said === undefined ? undefined : (languages.get(said.toLowerCase()) ?? said);
    if (name === undefined) return null;
    for (const member of ['name', 'initials', 'title', 'address']) {
      if (/@[^\s@]+\.[^\s@]/.test(row.text(member) ?? ''))
        row.problem(member, 'holds an e-mail address: those never enter a record');
    }
    const there = season.people().find((person) => {
      const { personal } = asOf(person, Infinity);
      return 'name' in personal && same(personal.name, name);
    });
    if (there !== undefined) return { known: name };
    const personal = filled({
      name,
      initials: row.text('initials'),
      title: row.text('title'),
      address: row.text('address'),
    });
    return { wishes: [{ type: 'person.registered', data: filled({ personId: newId(), personal, language }) }] };
  },
};

const languages: ReadonlyMap<string, string> = new Map([
  ['english', 'en'],
  ['inglés', 'en'],
  ['ingles', 'en'],
  ['spanish', 'es'],
  ['español', 'es'],
  ['espanol', 'es'],
]);
