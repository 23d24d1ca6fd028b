import { memberOf, numberOf, textOf } from '../http/read.ts';
import { external } from '../store/external.ts';

/** Somebody who holds a shared phone, as their PIN proved. */
export interface Hand {
  readonly accountId: string;
  readonly name: string;
  readonly role: string | null;
  /** Opens the operation for this person on this phone; the service ends it half an hour after its last use. */
  readonly token: string;
  /** When the phone was last touched, ms since 1970. */
  readonly touchedAt: number;
}

/** Who this device speaks for. The token opens every operation in which its person is a member. */
export interface Session {
  readonly token: string;
  readonly operationId: string | null;
  /** The service no longer takes the token. What waits on this device is not touched: it waits for a new one. */
  readonly ended: boolean;
  /** What the service said the person is there; null until it was asked. */
  readonly role: string | null;
  readonly operationName: string | null;
  readonly timeZone: string | null;
  /** The token is a shared phone's; null until the service was asked. */
  readonly shared: boolean | null;
  /** The token is an inspector's reading link; null until the service was asked. */
  readonly link: boolean | null;
  /** Who holds the shared phone; null where nobody has said so, or it lay still for half an hour. */
  readonly hand: Hand | null;
}

/** The token to speak with: that of whoever holds the phone, else the device's own. */
export const speaking = ({ token, hand }: Session): string => hand?.token ?? token;

/** In whose name a shared phone writes now; undefined: in the phone's own, or the phone is one person's. */
export function writer(): Pick<Hand, 'accountId' | 'name'> | undefined {
  const hand = session.get()?.hand ?? null;
  return hand === null ? undefined : { accountId: hand.accountId, name: hand.name };
}

/** What the one who speaks is here; null until the service was asked. */
export const roleOf = (now: Session | null): string | null => (now?.hand ?? now)?.role ?? null;

const key = 'furrowmark.session';

function kept(): Session | null {
  try {
    const read: unknown = JSON.parse(localStorage.getItem(key) ?? 'null');
    const text = (name: string): string | null => textOf(read, name);
    const token = text('token');
    const flag = (name: string): boolean | null => {
      const said = memberOf(read, name);
      return typeof said === 'boolean' ? said : null;
    };
    if (token === null) return null;
    return {
      token,
      operationId: text('operationId'),
      ended: memberOf(read, 'ended') === true,
      role: text('role'),
      operationName: text('operationName'),
      timeZone: text('timeZone'),
      shared: flag('shared'),
      link: flag('link'),
      hand: handIn(memberOf(read, 'hand')),
    };
  } catch {
    return null;
  }
}

function handIn(read: unknown): Hand | null {
  const [accountId, token] = [textOf(read, 'accountId'), textOf(read, 'token')];
  if (accountId === null || token === null) return null;
  const [name, touchedAt] = [textOf(read, 'name') ?? '', numberOf(read, 'touchedAt') ?? 0];
  return { accountId, name, role: textOf(read, 'role'), token, touchedAt };
}

/**
 * Reads a link's fragment (`#token=…&operation=…`), which no server ever sees, and takes it out of the address at
 * once, so that it is neither bookmarked nor read over a shoulder.
 */
function fromLink(before: Session | null): Session | null {
  const given = new URLSearchParams(location.hash.slice(1));
  const token = given.get('token');
  if (token === null) return before;
  history.replaceState(null, '', location.pathname + location.search);
  const operationId = given.get('operation') ?? before?.operationId ?? null;
  const same = before?.operationId === operationId;
  return {
    token,
    operationId,
    ended: false,
    role: null,
    operationName: same ? (before?.operationName ?? null) : null,
    timeZone: same ? (before?.timeZone ?? null) : null,
    shared: null,
    link: null,
    hand: null,
  };
}

export const session = external<Session | null>(null);

export function openSession(): void {
  keep(fromLink(kept()));
  // Who holds the phone is the same in every tab.
  window.addEventListener('storage', (event) => {
    if (event.key === key) session.set(kept());
  });
}

function keep(next: Session | null): void {
  session.set(next);
  if (next === null) localStorage.removeItem(key);
  else localStorage.setItem(key, JSON.stringify(next));
}

/** Changes what is named of the session. */
export function change(changes: Partial<Session>): void {
  const now = session.get();
  if (now !== null) keep({ ...now, ...changes });
}

/** Signs in with a token: the operation stays chosen, so that what waits for it is sent. */
export function signIn(token: string): void {
  const now = session.get();
  const empty = { operationId: null, operationName: null, timeZone: null };
  keep({ ...empty, ...now, token, role: null, ended: false, shared: null, link: null, hand: null });
}

/** Forgets the token. Records that wait stay on this device. */
export function signOut(): void {
  keep(null);
}
