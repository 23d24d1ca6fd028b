import { lazy, Suspense, useState, type FormEvent } from 'react';
import { change, session, signIn } from '../session/session.ts';
import { acceptInvitation, signInWith, type SigningIn } from '../session/signing.ts';
import { Told } from '../refusals/Told.tsx';
import { external, useExternal } from '../store/external.ts';
import { operations, reception } from '../sync/sync.ts';
import { useWords } from '../words/useWords.ts';

/** Somebody who belongs to none yet may create one. */
const FirstOperation = lazy(() => import('../desk/setup/FirstOperation.tsx'));

/** An invitation that a link brought, until it is accepted. */
export const invitation = external<string | null>(null);

/** Asks who it is, then, where the person has several, for the operation. */
export function SignInPage() {
  const w = useWords();
  const now = useExternal(session);
  const choices = useExternal(operations);
  const invited = useExternal(invitation);
  const known = useExternal(reception).kind === 'heard';
  if (invited !== null) {
    return (
      <main className="page narrow">
        <h1>{w.invitedTitle}</h1>
        <p>{w.invitedText}</p>
        <PasswordForm
          fresh
          enter={async (login, password) => {
            const said = await acceptInvitation(invited, login, password);
            if (said === null) invitation.set(null);
            return said;
          }}
        />
      </main>
    );
  }
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
        {known && choices.length === 0 && (
          <Suspense fallback={null}>
            <FirstOperation />
          </Suspense>
        )}
        <Trouble />
      </main>
    );
  }
  return (
    <main className="page narrow sign-in">
      <h1>{w.appName}</h1>
      <p className="faint">{w.signInText}</p>
      <PasswordForm enter={signInWith} />
      <details>
        <summary>{w.tokenInstead}</summary>
        <TokenForm />
      </details>
      <Trouble />
    </main>
  );
}

function Trouble() {
  const w = useWords();
  const { kind } = useExternal(reception);
  const now = useExternal(session);
  // What was never let in has not ended.
  if (now?.ended === true) return <p role="alert">{now.role === null ? w.neverIn : w.signInAgain}</p>;
  return kind === 'unreachable' ? <p role="status">{w.noReceptionYet}</p> : null;
}

/** Of a new password; the service asks for as many. */
const leastCharacters = 15;

interface PasswordProps {
  readonly enter: (login: string, password: string) => Promise<SigningIn>;
  /** A new password is chosen. */
  readonly fresh?: boolean;
}

/** Name and password. */
export function PasswordForm({ enter, fresh = false }: PasswordProps) {
  const w = useWords();
  const [login, setLogin] = useState('');
  const [password, setPassword] = useState('');
  const [said, setSaid] = useState<SigningIn>(null);
  const [busy, setBusy] = useState(false);
  const submit = (event: FormEvent): void => {
    event.preventDefault();
    setBusy(true);
    void enter(login.trim(), password).then((answer) => {
      setSaid(answer);
      setBusy(false);
    });
  };
  return (
    <form onSubmit={submit} className="stack">
      <label htmlFor="login">{w.loginLabel}</label>
      <input
        id="login"
        type="text"
        autoComplete="username"
        autoCapitalize="none"
        required
        value={login}
        onChange={(event) => setLogin(event.target.value)}
      />
      <label htmlFor="password">{fresh ? w.newPasswordLabel : w.passwordLabel}</label>
      <input
        id="password"
        type="password"
        autoComplete={fresh ? 'new-password' : 'current-password'}
        required
        minLength={fresh ? leastCharacters : undefined}
        aria-describedby={fresh ? 'password-help' : undefined}
        value={password}
        onChange={(event) => setPassword(event.target.value)}
      />
      {fresh && (
        <p id="password-help" className="faint">
          {w.newPasswordHelp}
        </p>
      )}
      {said !== null && (
        <p role="alert" className="problem">
          {said === 'unreachable' ? w.noReceptionYet : <Told text={said} />}
        </p>
      )}
      <button type="submit" className="button wide" disabled={busy}>
        {w.signInButton}
      </button>
    </form>
  );
}

/** One field for the token, or for the whole link that carries it. */
export function TokenForm() {
  const w = useWords();
  const [text, setText] = useState('');
  const enter = (event: FormEvent): void => {
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
        {w.useToken}
      </button>
    </form>
  );
}
