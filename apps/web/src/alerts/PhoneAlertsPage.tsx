import { useState } from 'react';
import { Choice } from '../app/Choice.tsx';
import { useExternal } from '../store/external.ts';
import { useWordsOf } from '../words/useWords.ts';
import { alertPlan, plan } from './alerting.ts';
import { alertWords } from './words.ts';

const able = 'Notification' in window && 'serviceWorker' in navigator;

/** What this phone tells of: whether, how long before, and when it is quiet. */
export default function PhoneAlertsPage() {
  const w = useWordsOf(alertWords);
  const kept = useExternal(alertPlan);
  const [permission, setPermission] = useState(able ? Notification.permission : 'denied');
  const on = kept?.on === true && permission === 'granted';
  const turn = async (to: 'on' | 'off'): Promise<void> => {
    const given = to === 'on' ? await Notification.requestPermission() : permission;
    setPermission(given);
    await plan({ on: to === 'on' && given === 'granted' });
    if (to === 'on' && given === 'granted') await wakeNowAndThen();
  };
  return (
    <section className="page narrow">
      <h1>{w.title}</h1>
      <p>{w.text}</p>
      {!able && <p role="status">{w.cannot}</p>}
      {able && (
        <Choice
          legend={w.whether}
          options={[
            ['off', w.off],
            ['on', w.on],
          ]}
          value={on ? 'on' : 'off'}
          onChange={(to) => void turn(to)}
        />
      )}
      {able && permission === 'denied' && <p role="alert">{w.denied}</p>}
      {on && kept !== null && (
        <>
          <Choice
            legend={w.lead}
            options={[0, 5, 15, 30, 60].map((n) => [String(n), n === 0 ? w.leadNone : w.leadMinutes(n)] as const)}
            value={String(kept.leadMinutes)}
            onChange={(n) => void plan({ leadMinutes: Number(n) })}
          />
          <Choice
            legend={w.quiet}
            help={w.quietText}
            options={[
              ['on', w.quietOn],
              ['off', w.quietOff],
            ]}
            value={kept.quiet === null ? 'off' : 'on'}
            onChange={(to) => void plan({ quiet: to === 'on' ? { from: 22 * 60, until: 5 * 60 } : null })}
          />
          {kept.quiet !== null && (
            <div className="row">
              {(['from', 'until'] as const).map((end) => (
                <label key={end} className="stack tight">
                  <span>{w[end]}</span>
                  <input
                    type="time"
                    value={clockOf(kept.quiet?.[end] ?? 0)}
                    onChange={({ target: { value } }) => {
                      if (kept.quiet !== null && value !== '')
                        void plan({ quiet: { ...kept.quiet, [end]: minuteOf(value) } });
                    }}
                  />
                </label>
              ))}
            </div>
          )}
          <button type="button" className="button quiet" onClick={() => void tryOne(w.title, w.tried)}>
            {w.try}
          </button>
        </>
      )}
      <p className="faint small">{w.limits}</p>
    </section>
  );
}

const two = (n: number): string => String(n).padStart(2, '0');
const clockOf = (minute: number): string => `${two(Math.floor(minute / 60))}:${two(minute % 60)}`;
function minuteOf(text: string): number {
  const [hours = 0, minutes = 0] = text.split(':').map(Number);
  return hours * 60 + minutes;
}

async function tryOne(title: string, body: string): Promise<void> {
  const registration = await navigator.serviceWorker.ready;
  await registration.showNotification(title, { body, tag: 'furrowmark.try', icon: '/icon-192.png', data: '/' });
}

/** Asks the system to wake the installed app from time to time, where there is such a thing. */
async function wakeNowAndThen(): Promise<void> {
  const sync: unknown = Reflect.get(await navigator.serviceWorker.ready, 'periodicSync');
  const register: unknown = typeof sync === 'object' && sync !== null ? Reflect.get(sync, 'register') : undefined;
  if (typeof register !== 'function') return;
  try {
    await Reflect.apply(register, sync, ['furrowmark.look', { minInterval: 15 * 60_000 }]);
  } catch {
    // Only installed apps are woken.
  }
}
