import { database } from '../store/database.ts';
import { atTime } from '../words/spanishTimes.ts';
import { toTell, withTold, type AlertPlan, type Planned } from './planned.ts';

/** A plan this old was not made anew for long: others may have recorded meanwhile what it asks for. */
const oldMs = 30 * 60_000;

const words = {
  en: {
    several: (n: number) => `${String(n)} things at the tanks`,
    asOf: (at: string) => `As this phone knew it at ${at}.`,
  },
  es: {
    several: (n: number) => `${String(n)} asuntos en los tanques`,
    asOf: (at: string) => `Según lo que este teléfono sabía ${atTime(at)}.`,
  },
} as const;

/**
 * Shows what is to be told by now, several things as one notice, and notes that it was told. Runs in the service worker,
 * one look at a time. Noted once it is shown: a worker that is stopped in between shows the same notice again in its own
 * place, and none is lost.
 */
export async function tell(registration: ServiceWorkerRegistration, now: number): Promise<void> {
  if (Notification.permission !== 'granted') return;
  await navigator.locks.request('furrowmark.tell', async () => {
    for (const plan of await (await database()).getAll('alerts')) {
      const found = toTell(plan, now, minuteOfDay(now, plan.zone));
      if (found.length === 0) continue;
      await show(registration, plan, found, now);
      await note(plan.operationId, found, now);
    }
  });
}

/** Notes that these were told, in the plan as it stands by now: it may have been made anew meanwhile. */
async function note(operationId: string, found: readonly Planned[], now: number): Promise<void> {
  const transaction = (await database()).transaction('alerts', 'readwrite');
  const plan = await transaction.store.get(operationId);
  const keys = found.map(({ key }) => key);
  if (plan !== undefined) await transaction.store.put(withTold(plan, keys, now));
  await transaction.done;
}

async function show(
  registration: ServiceWorkerRegistration,
  { plannedAt, language, zone }: AlertPlan,
  found: readonly Planned[],
  now: number,
): Promise<void> {
  const [first] = found;
  if (first === undefined) return;
  const w = words[language];
  const lines = found.length === 1 ? [first.body] : found.map(({ title, body }) => `${title}: ${body}`);
  if (now - plannedAt > oldMs) lines.push(w.asOf(clock(plannedAt, zone, language)));
  await registration.showNotification(found.length === 1 ? first.title : w.several(found.length), {
    body: lines.join('\n'),
    lang: language,
    // A later one of several things takes the place of the one before.
    tag: found.length === 1 ? first.key : 'furrowmark.several',
    icon: '/icon-192.png',
    badge: '/icon-192.png',
    data: found.length === 1 ? first.path : '/',
  });
}

const clock = (at: number, zone: string, language: 'en' | 'es'): string =>
  new Intl.DateTimeFormat(language, { timeZone: zone, hour: '2-digit', minute: '2-digit', hourCycle: 'h23' }).format(
    at,
  );

function minuteOfDay(at: number, zone: string): number {
  const [hours = 0, minutes = 0] = clock(at, zone, 'en').split(':').map(Number);
  return hours * 60 + minutes;
}
