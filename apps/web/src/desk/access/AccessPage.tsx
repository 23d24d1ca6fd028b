import { roleOf, session } from '../../session/session.ts';
import { useExternal } from '../../store/external.ts';
import { useWordsOf } from '../../words/useWords.ts';
import '../desk.css';
import { deskWords } from '../words.ts';
import { LinksCard } from './LinksCard.tsx';
import { PeopleCard } from './PeopleCard.tsx';
import { PhonesCard } from './PhonesCard.tsx';
import { accessWords } from './words.ts';

/** Who may come in: people, the phones they share, and reading links for somebody outside. */
export default function AccessPage() {
  const w = useWordsOf(accessWords);
  const desk = useWordsOf(deskWords);
  const role = roleOf(useExternal(session));
  return (
    <section className="page">
      <h1>{w.title}</h1>
      <p className="faint">{w.intro}</p>
      <PeopleCard manages={role === 'manager'} />
      {role === 'manager' ? (
        <>
          <PhonesCard />
          <LinksCard />
        </>
      ) : (
        <p className="faint">{desk.onlyManagers}</p>
      )}
    </section>
  );
}
