import type { Person } from '@furrowmark/domain';
import { useState } from 'react';
import { Choice } from '../../app/Choice.tsx';
import { fromLocal } from '../../clock/local.ts';
import { useWordsOf } from '../../words/useWords.ts';
import { SelectEntry, TextEntry } from '../Entry.tsx';
import type { Ready } from '../ready.tsx';
import { RecordForm, type Fact } from '../RecordForm.tsx';
import { personalIn, revisionOf, writtenOf, type PersonWritten } from './personChange.ts';
import { peopleWords } from './words.ts';

type Way = 'revise' | 'amend' | 'retire';

interface Props {
  readonly local: Ready;
  readonly person: Person;
}

/**
 * Puts right or changes what is known of a person, or says that they left. What is half typed is not kept on this device:
 * a name that nobody recorded could not be erased.
 */
export function ChangePerson({ local, person }: Props) {
  const w = useWordsOf(peopleWords);
  const { engine, season } = local;
  const [now] = useState(() => writtenOf(engine.domain.asOf(person, Date.now())));
  const [first] = useState(() => writtenOf(person.registered));
  const [way, setWay] = useState<Way>('revise');
  const [revised, setRevised] = useState(now);
  const [amended, setAmended] = useState(first);
  const [reason, setReason] = useState('');
  const [when, setWhen] = useState('');
  const [same, setSame] = useState(false);
  const { id: personId, retired, rivals, recordIds } = person;
  // Of several registrations the last is shown; its rivals stand before it.
  const record = season.record(recordIds[rivals.length] ?? '');
  const facts = (): readonly Fact[] | null => {
    switch (way) {
      case 'revise': {
        const changes = revisionOf(now, revised);
        setSame(changes === null);
        return changes === null ? null : [{ type: 'person.revised', data: { personId, ...changes } }];
      }
      case 'amend': {
        if (record === undefined) return null;
        const language = amended.language === '' ? {} : { language: amended.language };
        const data = { personId, personal: personalIn(amended), ...language };
        const of = { recordId: record.id, type: record.type, version: record.version };
        return [{ type: 'record.amended', data: { ...of, data, reason } }];
      }
      case 'retire': {
        const at = when === '' ? undefined : fromLocal(when, season.timeZone);
        return at === null ? null : [{ type: 'person.retired', data: { personId, reason }, at }];
      }
    }
  };
  const ways: readonly (readonly [Way, string])[] = [
    ['revise', w.revise],
    ['amend', w.amend],
    ...(retired === undefined ? ([['retire', w.retire]] as const) : []),
  ];
  const choose = (to: Way): void => {
    setWay(to);
    setSame(false);
  };
  return (
    <RecordForm local={local} alsoBy={[]} facts={facts}>
      <Choice legend={w.way} options={ways} value={way} onChange={choose} help={w[`${way}_help`]} />
      {way === 'revise' && <Written written={revised} onChange={setRevised} />}
      {way === 'amend' && <Written written={amended} onChange={setAmended} />}
      {way !== 'revise' && <TextEntry label={w.reason} help={w.reasonHelp} value={reason} onChange={setReason} />}
      {way === 'retire' && (
        <TextEntry
          label={w.leftAt}
          help={w.leftAtHelp}
          type="datetime-local"
          optional
          value={when}
          onChange={setWhen}
        />
      )}
      {same && (
        <p role="alert" className="problem">
          {w.nothingChanged}
        </p>
      )}
    </RecordForm>
  );
}

const languages = [
  ['en', 'English'],
  ['es', 'Español'],
] as const;

interface WrittenProps {
  readonly written: PersonWritten;
  readonly onChange: (written: PersonWritten) => void;
}

function Written({ written, onChange }: WrittenProps) {
  const w = useWordsOf(peopleWords);
  const { name, initials, title, address, language } = written;
  const write = (of: keyof PersonWritten) => (text: string) => onChange({ ...written, [of]: text });
  const known = languages.some(([each]) => each === language);
  return (
    <>
      <TextEntry label={w.name} value={name} onChange={write('name')} />
      <TextEntry label={w.initials} value={initials} onChange={write('initials')} optional />
      <TextEntry label={w.personTitle} value={title} onChange={write('title')} optional />
      <TextEntry label={w.address} help={w.addressHelp} value={address} onChange={write('address')} optional />
      <SelectEntry
        label={w.reads}
        value={language}
        onChange={write('language')}
        optional={language === ''}
        options={[...(known ? [] : [[language, language === '' ? '–' : language] as const]), ...languages]}
      />
    </>
  );
}
