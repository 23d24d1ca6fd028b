import { useState } from 'react';
import { ask } from '../../http/ask.ts';
import { memberOf, textOf, textsOf } from '../../http/read.ts';
import { useAsked } from '../../http/useAsked.ts';
import { session } from '../../session/session.ts';
import { settings } from '../../session/settings.ts';
import { useWordsOf } from '../../words/useWords.ts';
import { SelectEntry, TextEntry } from '../Entry.tsx';
import { Told, Trouble } from '../../refusals/Told.tsx';
import { ServiceForm } from '../ServiceForm.tsx';
import { Several } from '../Several.tsx';
import { SureButton } from '../SureButton.tsx';
import { deskWords } from '../words.ts';
import '../desk.css';
import { alertWords } from './words.ts';

const kinds = ['tank', 'office', 'broken'] as const;

interface Choice {
  readonly address: string;
  readonly tells: readonly string[];
  readonly quiet: { readonly from: string; readonly until: string } | null;
  readonly language: string;
  readonly failure: string | null;
}

function alertsIn(body: unknown): { readonly choice: Choice | null; readonly mail: boolean } {
  const choice = memberOf(body, 'choice');
  const quiet = memberOf(choice, 'quiet');
  const address = textOf(choice, 'address');
  return {
    mail: memberOf(body, 'mail') === true,
    choice:
      address === null
        ? null
        : {
            address,
            tells: textsOf(choice, 'tells'),
            quiet:
              textOf(quiet, 'from') === null
                ? null
                : { from: textOf(quiet, 'from') ?? '', until: textOf(quiet, 'until') ?? '' },
            language: textOf(choice, 'language') ?? 'en',
            failure: textOf(choice, 'failure'),
          },
  };
}

const path = (): string => `/operations/${session.get()?.operationId ?? ''}/alerts`;

/** What this person is told by e-mail: asked for, changed and ended here. */
export default function AlertsPage() {
  const w = useWordsOf(alertWords);
  const desk = useWordsOf(deskWords);
  const { value, trouble, again } = useAsked('/alerts', alertsIn);
  return (
    <section className="page narrow">
      <h1>{w.title}</h1>
      <p className="faint">{w.intro}</p>
      {value === null ? (
        <p role="status">{trouble === null ? desk.asking : <Trouble answer={trouble} w={desk} />}</p>
      ) : (
        <>
          {!value.mail && (
            <p role="note" className="notice">
              {w.noMail}
            </p>
          )}
          {typeof value.choice?.failure === 'string' && (
            <p role="alert" className="problem">
              {w.failed} <Told text={value.choice.failure} />
            </p>
          )}
          <div className="card">
            <ChoiceForm key={JSON.stringify(value.choice)} before={value.choice} onDone={again} />
          </div>
          {value.choice !== null && (
            <SureButton
              label={w.end}
              about={value.choice.address}
              sure={w.endSure}
              send={() => ask(path(), { method: 'DELETE' })}
              onDone={again}
            />
          )}
        </>
      )}
    </section>
  );
}

function ChoiceForm({ before, onDone }: { readonly before: Choice | null; readonly onDone: () => void }) {
  const w = useWordsOf(alertWords);
  const [address, setAddress] = useState(before?.address ?? '');
  const [tells, setTells] = useState<readonly string[]>(before?.tells ?? ['tank', 'broken']);
  const [night, setNight] = useState(before !== null && before.quiet === null ? 'no' : 'yes');
  const [from, setFrom] = useState(before?.quiet?.from ?? '21:00');
  const [until, setUntil] = useState(before?.quiet?.until ?? '05:30');
  const [language, setLanguage] = useState(before?.language ?? settings.get().language);
  return (
    <ServiceForm
      label={before === null ? w.begin : w.change}
      done={w.done}
      send={() =>
        tells.length === 0
          ? null
          : ask(path(), {
              method: 'PUT',
              json: { address: address.trim(), tells, quiet: night === 'yes' ? { from, until } : null, language },
            })
      }
      onDone={onDone}
    >
      <TextEntry
        label={w.address}
        help={w.addressHelp}
        type="email"
        autoComplete="email"
        value={address}
        onChange={setAddress}
      />
      <Several
        legend={w.tells}
        options={kinds.map((kind) => [kind, w[`tell_${kind}`]] as const)}
        chosen={tells}
        onChange={setTells}
      />
      {tells.length === 0 && (
        <p role="alert" className="problem">
          {w.nothingChosen}
        </p>
      )}
      <SelectEntry
        label={w.quiet}
        help={w.quietHelp}
        value={night}
        onChange={setNight}
        options={[
          ['yes', w.quietYes],
          ['no', w.quietNo],
        ]}
      />
      {night === 'yes' && (
        <div className="two">
          <TextEntry label={w.from} type="time" value={from} onChange={setFrom} />
          <TextEntry label={w.until} type="time" value={until} onChange={setUntil} />
        </div>
      )}
      <SelectEntry
        label={w.language}
        value={language}
        onChange={(to) => setLanguage(to === 'es' ? 'es' : 'en')}
        options={[
          ['en', 'English'],
          ['es', 'Español'],
        ]}
      />
    </ServiceForm>
  );
}
