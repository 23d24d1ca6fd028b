import type { ReactNode } from 'react';
import { Link, useRoute } from 'wouter';
import { session } from '../session/session.ts';
import { settings } from '../session/settings.ts';
import { useExternal } from '../store/external.ts';
import { useWords } from '../words/useWords.ts';
import { ReceptionLine } from '../sync/ReceptionLine.tsx';
import { UpdateOffer } from './UpdateOffer.tsx';
import type { View } from './view.ts';
import { views } from './views.ts';

/** What stands around every page: whose records, how reception is, where to go. */
export function Frame({ children }: { readonly children: ReactNode }) {
  const w = useWords();
  const now = useExternal(session);
  return (
    <div className="frame">
      <a className="skip" href="#main">
        {w.skip}
      </a>
      <header className="top">
        <p className="whose">{now?.operationName ?? w.appName}</p>
        <ReceptionLine />
      </header>
      <nav className="bar" aria-label={w.mainNav}>
        {views.flatMap((view) => (view.offered === undefined ? [] : [<BarLink key={view.path} view={view} />]))}
      </nav>
      <main id="main" tabIndex={-1}>
        <UpdateOffer />
        {children}
      </main>
    </div>
  );
}

function BarLink({ view }: { readonly view: View }) {
  const { language } = useExternal(settings);
  const [here] = useRoute(view.path);
  return (
    <Link href={view.path} className={`bar-link bar-${view.offered ?? ''}`} aria-current={here ? 'page' : undefined}>
      {view.label?.[language]}
    </Link>
  );
}
