import { external } from '../store/external.ts';

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
}

const key = 'furrowmark.session';

function kept(): Session | null {
  try {
    const read: unknown = JSON.parse(localStorage.getItem(key) ?? 'null');
    if (typeof read !== 'object' || read === null) return null;
    const text = (name: string): string | null => {
      const value: unknown = Reflect.get(read, name);
      return typeof value === 'string' ? value : null;
    };
    const token = text('token');
    if (token === null) return null;
    return {
      token,
      operationId: text('operationId'),
      ended: Reflect.get(read, 'ended') === true,
      role: text('role'),
      operationName: text('operationName'),
      timeZone: text('timeZone'),
    };
  } catch {
    return null;
  }
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
  };
}

export const session = external<Session | null>(null);

export function openSession(): void {
  keep(fromLink(kept()));
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
  const empty = { operationId: null, role: null, operationName: null, timeZone: null };
  keep({ ...empty, ...now, token, role: null, ended: false });
}

/** Forgets the token. Records that wait stay on this device. */
export function signOut(): void {
  keep(null);
}
