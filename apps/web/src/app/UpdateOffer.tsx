import { useState } from 'react';
import { external, useExternal } from '../store/external.ts';
import { useWords } from '../words/useWords.ts';

/** Set when a new version of the app lies ready: called, it takes over and the page is loaded again. */
export const update = external<(() => void) | null>(null);

/** Offers the new version. It never takes over by itself. */
export function UpdateOffer() {
  const w = useWords();
  const take = useExternal(update);
  const [later, setLater] = useState(false);
  if (take === null || later) return null;
  return (
    <aside className="notice" aria-live="polite">
      <p>{w.updateReady}</p>
      <div className="row">
        <button type="button" className="button" onClick={take}>
          {w.updateNow}
        </button>
        <button type="button" className="button quiet" onClick={() => setLater(true)}>
          {w.updateLater}
        </button>
      </div>
    </aside>
  );
}
