import { useEffect, useState, type FormEvent } from 'react';
import { useLocation } from 'wouter';
import type { Answer } from '../http/ask.ts';
import { personalOf } from '../records/person.ts';
import { useSeason } from '../season/useSeason.ts';
import { session } from '../session/session.ts';
import { remember } from '../session/settings.ts';
import { useExternal } from '../store/external.ts';
import { useWordsOf } from '../words/useWords.ts';
import { pinHolders, putDown, take, type PinHolder } from './hand.ts';
import '../tank/keypad.css';
import './hand.css';
import { initialsOf } from './initials.ts';
import { handWords } from './words.ts';

/** A shared phone changes hands: initials, then a PIN. */
export default function HandPage() {
  const w = useWordsOf(handWords);
  const now = useExternal(session);
  const [people, setPeople] = useState<Awaited<ReturnType<typeof pinHolders>> | null>(null);
  const [chosen, setChosen] = useState<PinHolder | null>(null);
  const shared = now?.shared === true;
  useEffect(() => {
    if (shared) void pinHolders().then(setPeople);
  }, [shared, now?.hand]);
  if (!shared) {
    return (
      <section className="page narrow">
        <h1>{w.title}</h1>
        <p>{w.notShared}</p>
      </section>
    );
  }
  const known = Array.isArray(people) ? people : [];
  return (
    <section className="page narrow">
      <h1>{w.title}</h1>
      {now.hand === null ? (
        <p className="faint">{w.text}</p>
      ) : (
        <div className="row spread">
          <p>{w.holds(now.hand.name)}</p>
          <button type="button" className="button quiet" onClick={letGoOfIt}>
            {w.putDown}
          </button>
        </div>
      )}
      {people !== null && !Array.isArray(people) && <p role="status">{w.noReception}</p>}
      {Array.isArray(people) && people.length === 0 && <p role="status">{w.nobody}</p>}
      <ul className="hands" aria-label={w.people}>
        {known.map((each) => (
          <li key={each.accountId}>
            <button
              type="button"
              className="hand-person"
              aria-pressed={chosen?.accountId === each.accountId}
              onClick={() => setChosen(each)}
            >
              <span className="hand-initials" aria-hidden="true">
                {initialsOf(each.name)}
              </span>
              <span>{each.name}</span>
            </button>
          </li>
        ))}
      </ul>
      {chosen !== null && <PinForm key={chosen.accountId} person={chosen} />}
      <p className="faint small">{w.queueStays}</p>
    </section>
  );
}

function letGoOfIt(): void {
  putDown();
  remember({ who: null });
}

const keys = ['1', '2', '3', '4', '5', '6', '7', '8', '9', '', '0', '⌫'] as const;
const longest = 8;

function PinForm({ person }: { readonly person: PinHolder }) {
  const w = useWordsOf(handWords);
  const [, go] = useLocation();
  const personIdOf = usePersonId();
  const [pin, setPin] = useState('');
  const [said, setSaid] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const enter = (event: FormEvent): void => {
    event.preventDefault();
    setBusy(true);
    void take(person, pin).then((answer) => {
      setBusy(false);
      setPin('');
      if (answer.kind !== 'ok') return setSaid(saidOf(answer, w));
      remember({ who: personIdOf(person.name) });
      if (history.length > 1) history.back();
      else go('/');
    });
  };
  return (
    <form className="stack" onSubmit={enter}>
      <label htmlFor="pin">{w.pinOf(person.name)}</label>
      {/* The keys below are the phone's; a keyboard at the desk types as well. */}
      <input
        id="pin"
        type="password"
        inputMode="none"
        autoComplete="off"
        maxLength={longest}
        required
        value={pin}
        onChange={({ target }) => setPin(target.value.replace(/\D/g, ''))}
      />
      <div className="keypad">
        {keys.map((key) =>
          key === '' ? (
            <span key="blank" />
          ) : (
            <button
              key={key}
              type="button"
              className="key"
              aria-label={key === '⌫' ? w.erase : key}
              onClick={() => setPin(key === '⌫' ? pin.slice(0, -1) : (pin + key).slice(0, longest))}
            >
              {key}
            </button>
          ),
        )}
      </div>
      {said !== null && (
        <p role="alert" className="problem">
          {said}
        </p>
      )}
      <button type="submit" className="button wide" disabled={busy}>
        {w.begin}
      </button>
    </form>
  );
}

function saidOf(answer: Exclude<Answer, { kind: 'ok' }>, w: (typeof handWords)['en']): string {
  if (answer.kind === 'busy') return w.wait(answer.seconds);
  return answer.kind === 'refused' && answer.status === 403 ? w.wrong : w.noReception;
}

/** The registered person of this name, if there is exactly one: chosen as who did it in the records that follow. */
function usePersonId(): (name: string) => string | null {
  const state = useSeason();
  return (name) => {
    if (state.kind !== 'ready') return null;
    const same = state.season
      .people()
      .filter((person) => person.retired === undefined && personalOf(state.engine, person)?.name === name);
    return same.length === 1 ? (same[0]?.id ?? null) : null;
  };
}
