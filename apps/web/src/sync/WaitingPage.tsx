import { session } from '../session/session.ts';
import { useExternal } from '../store/external.ts';
import { held } from '../store/held.ts';
import { useWords } from '../words/useWords.ts';

/** What is on this phone. */
export default function WaitingPage() {
  const w = useWords();
  const queue = useExternal(held)?.queue ?? [];
  const now = useExternal(session);
  return (
    <section className="page narrow">
      <h1>{w.navWaiting}</h1>
      <p>{now?.ended === true ? w.nWaitSignIn(queue.length) : w.nWaiting(queue.length)}</p>
    </section>
  );
}
