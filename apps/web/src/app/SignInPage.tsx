import { useState, type FormEvent } from 'react';
import { change, session, signIn } from '../session/session.ts';
import { useExternal } from '../store/external.ts';
import { operations, reception } from '../sync/sync.ts';
import { useWords } from '../words/useWords.ts';

/** Asks for the token, then, where the person has several, for the operation. */
export function SignInPage() {
  const w = useWords();
  const now = useExternal(session);
  const choices = useExternal(operations);
  if (now !== null && !now.ended) {
    return (
      <main className="page narrow">
        <h1>{w.chooseOperation}</h1>
        <ul className="list">
          {choices.map((each) => (
            <li key={each.operationId}>
              <button type="button" className="button wide" onClick={() => change(each)}>
                {each.operationName}
              </button>
            </li>
          ))}
        </ul>
        <Trouble />
      </main>
    );
  }
  return (
    <main className="page narrow">
      <h1>{w.signInTitle}</h1>
      <TokenForm />
      <Trouble />
    </main>
  );
}

function Trouble() {
  const w = useWords();
  const { kind } = useExternal(reception);
  const now = useExternal(session);
  if (now?.ended === true) return <p role="alert">{w.signInAgain}</p>;
  return kind === 'unreachable' ? <p role="status">{w.noReceptionYet}</p> : null;
}

/** One field for the token, or for the whole link that carries it. */
export function TokenForm() {
  const w = useWords();
  const [text, setText] = useState('');
  const enter = (event: FormEvent) => {
    event.preventDefault();
    const token = /token=([^&\s]+)/.exec(text)?.[1] ?? text.trim();
    if (token !== '') signIn(decodeURIComponent(token));
  };
  return (
    <form onSubmit={enter} className="stack">
      <label htmlFor="token">{w.tokenLabel}</label>
      <input
        id="token"
        type="password"
        autoComplete="off"
        spellCheck={false}
        required
        value={text}
        aria-describedby="token-help"
        onChange={(event) => setText(event.target.value)}
      />
      <p id="token-help" className="faint">
        {w.tokenHelp}
      </p>
      <button type="submit" className="button wide">
        {w.signInButton}
      </button>
    </form>
  );
}
