import { ask, type Answer } from '../http/ask.ts';
import { listOf, textOf } from '../http/read.ts';
import { change, session } from '../session/session.ts';
import { external } from '../store/external.ts';
import { beginReading, readOn } from './read.ts';
import { sendFiles } from './sendFiles.ts';
import { sendWaiting } from './send.ts';

/** How things stand between this device and the service. */
export interface Reception {
  readonly kind:
    | 'unknown'
    /** Heard the service and sent everything. */
    | 'heard'
    | 'unreachable'
    /** The token has ended: nothing is sent until somebody signs in. */
    | 'ended'
    /** The service answered, but will not have this device's records: see `why`. */
    | 'refused';
  readonly why?: string;
  /** When the service was last heard, ms since 1970. */
  readonly heardAt: number | null;
  readonly busy: boolean;
}

export const reception = external<Reception>({ kind: 'unknown', heardAt: null, busy: false });

/** Nothing more comes for now. */
export const isStuck = (kind: Reception['kind']): boolean =>
  kind === 'unreachable' || kind === 'refused' || kind === 'ended';

const everyMs = 20_000;
let failures = 0;
let timer: ReturnType<typeof setTimeout> | undefined;
let again = false;
let running = false;

/** Begins to exchange with the service: at once, when reception returns, when the app is looked at, and by the clock. */
export function startSync(): void {
  window.addEventListener('online', () => void exchange());
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'visible') void exchange();
  });
  session.subscribe(() => void exchange());
  void exchange();
}

/** Sends and reads, one tab of the device at a time. What is asked for meanwhile is done right after. */
export async function exchange(): Promise<void> {
  if (running) {
    again = true;
    return;
  }
  running = true;
  clearTimeout(timer);
  let wait: number;
  try {
    do {
      again = false;
      wait = await navigator.locks.request('furrowmark.sync', once);
    } while (again);
  } catch {
    // The device's store could not be written (no space, closed by an update): try again, losing nothing.
    wait = everyMs;
  }
  running = false;
  clearTimeout(timer);
  timer = setTimeout(() => void exchange(), wait);
}

/** Milliseconds until the next time. */
async function once(): Promise<number> {
  const now = session.get();
  if (now === null || now.ended) {
    note({ kind: now === null ? 'unknown' : 'ended' });
    return everyMs;
  }
  reception.set({ ...reception.get(), busy: true });
  // What the tank needs is asked for at once; what is in the way of it is told where the log is read on.
  const [met] = await Promise.all([introduce(), now.operationId === null ? null : beginReading(now.operationId)]);
  if (met !== null) return ended(met);
  const operationId = session.get()?.operationId ?? null;
  if (operationId === null) {
    note({ kind: 'heard' });
    return everyMs;
  }
  const files = await sendFiles(operationId);
  const sent = await sendWaiting(operationId);
  const read = await readOn(operationId);
  // A photo that the service will not have stays here and shows as waiting; records go on.
  const photo = files === 'all' || files.kind === 'refused' ? null : files;
  const trouble = read !== 'all' ? read : sent !== 'all' ? sent : photo;
  if (trouble !== null) return ended(trouble);
  failures = 0;
  note({ kind: 'heard' });
  return everyMs;
}

/** Learns who this device speaks for, where that is not known yet. */
async function introduce(): Promise<Exclude<Answer, { kind: 'ok' }> | null> {
  const now = session.get();
  if (now === null || (now.operationId !== null && now.role !== null && now.shared !== null && now.link !== null))
    return null;
  const answer = await ask('/session', { as: now.token });
  if (answer.kind !== 'ok') return answer;
  const { body } = answer;
  const all = listOf(body, 'operations').map((each) => {
    const text = (name: string): string => textOf(each, name) ?? '';
    return {
      ...{ operationId: text('operationId'), operationName: text('name') },
      ...{ timeZone: text('timeZone'), role: text('role') },
    };
  });
  operations.set(all);
  const own = all.find(({ operationId }) => operationId === now.operationId) ?? (all.length === 1 ? all[0] : undefined);
  const kind = textOf(body, 'kind');
  change({ ...own, shared: kind === 'phone', link: kind === 'link' });
  return null;
}

/** The person's operations, where there are several to choose from. */
export const operations = external<
  readonly { operationId: string; operationName: string; timeZone: string; role: string }[]
>([]);

function ended(trouble: Exclude<Answer, { kind: 'ok' }>): number {
  failures += 1;
  const backOff = Math.min(60_000, 2_000 * 2 ** Math.min(failures, 5)) * (0.75 + Math.random() / 2);
  switch (trouble.kind) {
    case 'ended':
      note({ kind: 'ended' });
      return everyMs;
    case 'unreachable':
      note({ kind: 'unreachable' });
      return backOff;
    case 'busy':
      note({ kind: 'unreachable' });
      return Math.max(backOff, trouble.seconds * 1000);
    case 'refused':
      note({ kind: 'refused', why: trouble.problem.detail });
      return 60_000;
  }
}

function note(state: Pick<Reception, 'kind' | 'why'>): void {
  const heardAt = state.kind === 'heard' ? Date.now() : reception.get().heardAt;
  reception.set({ ...state, heardAt, busy: false });
}
