import { ask, type Answer } from '../http/ask.ts';
import { listOf, memberOf, textOf } from '../http/read.ts';
import { change, session } from '../session/session.ts';

/** Whoever walks away is signed out: as long as the service's own limit for a session on a shared phone, ms. */
const idleMs = 30 * 60_000;
/** Touches are noted at most so often, ms; the service is told then, too, as for it only questions count as use. */
const noteMs = 60_000;

export interface PinHolder {
  readonly accountId: string;
  readonly name: string;
}

/** Who may come in with a PIN on this phone. */
export async function pinHolders(): Promise<readonly PinHolder[] | Exclude<Answer, { kind: 'ok' }>> {
  const answer = await ask('/session/people', { as: session.get()?.token });
  if (answer.kind !== 'ok') return answer;
  return listOf(answer.body, 'people').map((each) => ({
    accountId: textOf(each, 'accountId') ?? '',
    name: textOf(each, 'name') ?? '',
  }));
}

/** Puts the phone into somebody's hand, if the PIN is theirs. What waits on it is not touched. */
export async function take({ accountId, name }: PinHolder, pin: string): Promise<Answer> {
  const answer = await ask('/session/pin', {
    method: 'POST',
    as: session.get()?.token,
    json: { accountId, pin },
  });
  if (answer.kind !== 'ok') return answer;
  const token = textOf(answer.body, 'token');
  if (token === null) return { kind: 'unreachable' };
  putDown();
  const own = await ask('/session', { as: token });
  const { operationId } = session.get() ?? {};
  const there = own.kind === 'ok' ? listOf(own.body, 'operations') : [];
  const role = textOf(
    there.find((each) => memberOf(each, 'operationId') === operationId),
    'role',
  );
  change({ hand: { accountId, name, role, token, touchedAt: Date.now() } });
  return answer;
}

/** The person's session on this phone is over. The phone goes on by itself. */
export function putDown(): void {
  const hand = session.get()?.hand ?? null;
  if (hand === null) return;
  change({ hand: null });
  void ask('/session', { method: 'DELETE', as: hand.token });
}

/** Notes when the phone is touched, and takes it out of a hand that has left it. */
export function startWatching(): void {
  const touched = (): void => {
    leftAlone();
    const hand = session.get()?.hand ?? null;
    if (hand === null || Date.now() - hand.touchedAt < noteMs) return;
    change({ hand: { ...hand, touchedAt: Date.now() } });
    void ask('/session', { as: hand.token });
  };
  for (const kind of ['pointerdown', 'keydown']) window.addEventListener(kind, touched, { capture: true });
  document.addEventListener('visibilitychange', leftAlone);
  setInterval(leftAlone, 60_000);
  leftAlone();
}

function leftAlone(): void {
  const hand = session.get()?.hand ?? null;
  if (hand !== null && Date.now() - hand.touchedAt >= idleMs) putDown();
}
