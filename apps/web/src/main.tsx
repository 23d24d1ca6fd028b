import './season/noCodeFromText.ts';
import './theme/tokens.css';
import './theme/base.css';
import './theme/print.css';
import { startTransition, StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { registerSW } from 'virtual:pwa-register';
import { App } from './app/App.tsx';
import { invitation } from './app/SignInPage.tsx';
import { update } from './app/UpdateOffer.tsx';
import { startWatching } from './hand/hand.ts';
import { startJudging } from './judge/judge.ts';
import { openSession } from './session/session.ts';
import { invitationInLink } from './session/signing.ts';
import { keepForGood } from './store/keepForGood.ts';
import { onceQuiet } from './app/onceQuiet.ts';
import { startSync } from './sync/sync.ts';

openSession();
invitation.set(invitationInLink());
// On its way while the first picture is drawn.
startJudging();
startSync();
startWatching();
void keepForGood();

// Nothing of the first picture waits for these: keeping every page's files on the device for when there is no reception
// is more work than that picture itself.
onceQuiet(1_500, () => {
  const take = registerSW({
    immediate: true,
    onNeedRefresh: () => update.set(() => void take(true)),
    // Phones stay open for weeks: look for a new version every hour.
    onRegisteredSW: (_address, worker) => {
      if (worker !== undefined) setInterval(() => void worker.update().catch(() => undefined), 3_600_000);
    },
  });
  void import('./alerts/alerting.ts').then(({ startAlerting }) => startAlerting()).catch(() => undefined);
});

const place = document.getElementById('app');
if (place !== null) {
  const root = createRoot(place);
  // In slices: a phone that is opening is not held up in one piece.
  startTransition(() => {
    root.render(
      <StrictMode>
        <App />
      </StrictMode>,
    );
  });
}
