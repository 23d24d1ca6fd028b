import { navigate } from 'wouter/use-browser-location';
import { ask, standing } from '../judge/judge.ts';
import { session } from '../session/session.ts';
import { settings } from '../session/settings.ts';
import { database } from '../store/database.ts';
import { external } from '../store/external.ts';
import { planOf } from './plan.ts';
import { withTold, type AlertPlan } from './planned.ts';

/** The plan of the operation that is chosen; null until it was read. */
export const alertPlan = external<AlertPlan | null>(null);

const everyMs = 30_000;

/** Keeps the plan of what is to be told, and has the service worker look at it, as long as the app runs. */
export function startAlerting(): void {
  const again = (): void => void plan();
  session.subscribe(again);
  settings.subscribe(again);
  standing.subscribe(again);
  setInterval(again, everyMs);
  // A notice that was touched leads to its tank.
  navigator.serviceWorker?.addEventListener('message', ({ data }: MessageEvent<unknown>) => {
    const path: unknown = typeof data === 'object' && data !== null ? Reflect.get(data, 'path') : undefined;
    if (typeof path === 'string' && path.startsWith('/')) navigate(path);
  });
  again();
}

/** What a person sets. */
type Wishes = Partial<Pick<AlertPlan, 'on' | 'leadMinutes' | 'quiet'>>;

let planning: Promise<void> = Promise.resolve();

/**
 * Plans anew by what is known now, then has it told. One at a time: what changed last is planned last. Times that a person
 * sets are kept at once: the next one is set, or the app closed, before a plan is made.
 */
export function plan({ on, ...times }: Wishes = {}): Promise<void> {
  const kept = keep(times);
  planning = planning
    .then(() => kept)
    .then(() => planNow(on))
    .catch(() => undefined);
  return planning;
}

async function keep(times: Omit<Wishes, 'on'>): Promise<void> {
  const operationId = session.get()?.operationId ?? null;
  if (operationId === null || Object.keys(times).length === 0) return;
  const shown = alertPlan.get();
  if (shown?.operationId === operationId) alertPlan.set({ ...shown, ...times });
  const transaction = (await database()).transaction('alerts', 'readwrite');
  const stored = (await transaction.store.get(operationId)) ?? usual(operationId);
  await transaction.store.put({ ...stored, ...times });
  await transaction.done;
}

async function planNow(wished: boolean | undefined): Promise<void> {
  const operationId = session.get()?.operationId ?? null;
  if (operationId === null) return;
  const { language } = settings.get();
  const before = (await (await database()).get('alerts', operationId)) ?? usual(operationId);
  const on = wished ?? before.on;
  const now = Date.now();
  const facts = on && standing.get().kind === 'ready' ? await ask('alerts', { now }) : null;
  const planned = facts === null ? before.planned : planOf(facts, before.leadMinutes, language, now, before.planned);
  const transaction = (await database()).transaction('alerts', 'readwrite');
  // What was told or set meanwhile is in the store, not in what was read before judging.
  const stored = (await transaction.store.get(operationId)) ?? before;
  const next: AlertPlan = {
    ...{ ...stored, on, planned, language },
    ...(facts === null ? {} : { plannedAt: now, zone: facts.zone }),
  };
  // Whoever switches alerts on does not want to hear what has been outside for days.
  const old = on && !before.on ? planned.filter(({ key }) => key.endsWith(' broken')).map(({ key }) => key) : [];
  const kept = withTold(next, old, now);
  await transaction.store.put(kept);
  await transaction.done;
  if (session.get()?.operationId === operationId) alertPlan.set(kept);
  if (on) (await navigator.serviceWorker.ready).active?.postMessage({ type: 'look' });
}

const usual = (operationId: string): AlertPlan => ({
  ...{ operationId, on: false, leadMinutes: 15, quiet: { from: 22 * 60, until: 5 * 60 } },
  ...{ zone: 'UTC', language: 'en', planned: [], plannedAt: 0, told: {} },
});
