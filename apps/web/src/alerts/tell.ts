import { database } from '../store/database.ts';
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
    asOf: (at: string) => `Según lo que este teléfono sabía a las ${at}.`,
  },
} as const;

/** Shows what is to be told by now, several things as one notice, and notes that it was told. Runs in the service worker. */
export async function tell(registration: ServiceWorkerRegistration, now: number): Promise<void> {
  for (const { plan, found } of await take(now)) await show(registration, plan, found, now);
}

/** What is to be told now, marked as told in the same transaction: two looks at once tell it once. */
async function take(now: number): Promise<{ plan: AlertPlan; found: readonly Planned[] }[]> {
  if (Notification.permission !== 'granted') return [];
  const transaction = (await database()).transaction('alerts', 'readwrite');
  const taken: { plan: AlertPlan; found: readonly Planned[] }[] = [];
  for (const plan of await transaction.store.getAll()) {
    const found = toTell(plan, now, minuteOfDay(now, plan.zone));
    if (found.length === 0) continue;
    taken.push({ plan, found });
    await transaction.store.put(
      withTold(
        plan,
        found.map(({ key }) => key),
        now,
      ),
    );
  }
  await transaction.done;
  return taken;
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
