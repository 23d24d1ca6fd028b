import type { Person } from '@furrowmark/domain';
import { Unfold } from '../../app/Unfold.tsx';
import { dayText } from '../../clock/text.ts';
import { personalOf, personName } from '../../records/person.ts';
import { roleOf, session } from '../../session/session.ts';
import { settings } from '../../session/settings.ts';
import { useMayRecord } from '../../session/useMayRecord.ts';
import { useExternal } from '../../store/external.ts';
import { useWordsOf } from '../../words/useWords.ts';
import { WhatHappened } from '../happened/WhatHappened.tsx';
import type { Ready } from '../ready.tsx';
import { PersonForm } from '../setup/forms.tsx';
import { ChangePerson } from './ChangePerson.tsx';
import { ErasePerson } from './ErasePerson.tsx';
import { peopleWords } from './words.ts';

/** Everybody whom the records name, who has left and who was erased last: trained, corrected, changed, erased. */
export function People({ local }: { readonly local: Ready }) {
  const w = useWordsOf(peopleWords);
  const manages = roleOf(useExternal(session)) === 'manager';
  const gone = ({ retired, erased }: Person): number => (erased !== undefined ? 2 : retired !== undefined ? 1 : 0);
  const people = local.season
    .people()
    .toSorted((a, b) => gone(a) - gone(b) || personName(local.engine, a).localeCompare(personName(local.engine, b)));
  return (
    <section className="card" aria-labelledby="people">
      <h2 id="people">{w.title}</h2>
      <p className="faint">{w.intro}</p>
      <ul className="entries">
        {people.map((person) => (
          <OnePerson key={person.id} local={local} person={person} manages={manages} />
        ))}
      </ul>
      {manages && (
        <Unfold className="card no-print" summary={w.register}>
          {() => <PersonForm key={people.length} local={local} onDone={() => undefined} />}
        </Unfold>
      )}
    </section>
  );
}

interface OneProps {
  readonly local: Ready;
  readonly person: Person;
  readonly manages: boolean;
}

function OnePerson({ local, person, manages }: OneProps) {
  const w = useWordsOf(peopleWords);
  const { language } = useExternal(settings);
  const mayRecord = useMayRecord();
  const { engine, season } = local;
  const { id, retired, erased } = person;
  const name = personName(engine, person);
  const personal = personalOf(engine, person);
  const gone =
    erased !== undefined ? w.erased(erased.data.reason) : retired !== undefined ? w.left(retired.reason) : '';
  const trained = person.trainings.map(({ at, data }) => `${data.topic}, ${dayText(at.at, season.timeZone, language)}`);
  const line = (...said: readonly string[]) => (
    <span>
      <strong>{name}</strong> <span className="faint">{said.filter((part) => part !== '').join(' · ')}</span>
    </span>
  );
  const title = personal?.title ?? '';
  const maybeTrained = mayRecord && retired === undefined;
  // Of whom nothing may be written it does not look as if it opened.
  if (erased !== undefined || !(manages || maybeTrained)) return <li>{line(title, gone, ...trained)}</li>;
  // Initials and address are shown to who may change them.
  const facts: readonly (readonly [string, string])[] = [
    ...(manages
      ? ([
          [w.initials, personal?.initials ?? ''],
          [w.address, personal?.address ?? ''],
        ] as const)
      : []),
    [w.trainings, trained.join(' · ')],
  ];
  const known = facts.filter(([, text]) => text !== '');
  return (
    <li>
      <Unfold summary={line(title, gone)}>
        {() => (
          <>
            {known.length > 0 && (
              <dl className="facts">
                {known.map(([label, text]) => (
                  <div key={label} className="fact">
                    <dt>{label}</dt>
                    <dd>{text}</dd>
                  </div>
                ))}
              </dl>
            )}
            {maybeTrained && <WhatHappened local={local} of="person" about={{ personId: id }} name={w.trained} />}
            {manages && (
              <>
                <Unfold className="card no-print" summary={w.change}>
                  {() => <ChangePerson key={person.recordIds.join()} local={local} person={person} />}
                </Unfold>
                <Unfold className="card no-print" summary={w.erase}>
                  {() => <ErasePerson local={local} personId={id} name={name} />}
                </Unfold>
              </>
            )}
          </>
        )}
      </Unfold>
    </li>
  );
}
