import { useEffect, useRef, type ReactNode } from 'react';
import { Link, useLocation, useRoute } from 'wouter';
import { HandLink } from '../hand/HandLink.tsx';
import { session } from '../session/session.ts';
import { settings } from '../session/settings.ts';
import { useExternal } from '../store/external.ts';
import { useWords } from '../words/useWords.ts';
import { ReceptionLine } from '../sync/ReceptionLine.tsx';
import { afterPicture } from './afterPicture.ts';
import { UpdateOffer } from './UpdateOffer.tsx';
import { offeredTo, type View } from './view.ts';
import { views } from './views.ts';

/** What stands around every page: whose records, how reception is, where to go. */
export function Frame({ children }: { readonly children: ReactNode }) {
  const w = useWords();
  const now = useExternal(session);
  const main = usePage();
  return (
    <div className="frame">
      <a className="skip" href="#main">
        {w.skip}
      </a>
      <header className="top">
        <p className="whose">{now?.operationName ?? w.appName}</p>
        <ReceptionLine />
        <HandLink />
      </header>
      <nav className="bar" aria-label={w.mainNav}>
        {views.flatMap((view) => {
          const offered = offeredTo(view, now);
          return offered === undefined ? [] : [<BarLink key={view.path} view={view} offered={offered} />];
        })}
      </nav>
      <main id="main" tabIndex={-1} ref={main}>
        <UpdateOffer />
        {children}
      </main>
    </div>
  );
}

/** On a new page: from its top, with the keyboard's focus in it, and its heading as the window's title. */
function usePage() {
  const main = useRef<HTMLElement>(null);
  const [place] = useLocation();
  const first = useRef(true);
  useEffect(() => {
    if (first.current) {
      first.current = false;
      return undefined;
    }
    window.scrollTo(0, 0);
    // Moving the focus makes the browser lay out the page there and then: once the page is in view.
    return afterPicture(() => {
      const element = main.current;
      if (element?.contains(document.activeElement) === false) element.focus({ preventScroll: true });
    });
  }, [place]);
  useEffect(() => {
    const element = main.current;
    if (element === null) return;
    const name = (): void => {
      const heading = element.querySelector('h1')?.textContent.trim();
      document.title = heading === undefined || heading === '' ? 'Furrowmark' : `${heading} · Furrowmark`;
    };
    name();
    const observer = new MutationObserver(name);
    observer.observe(element, { childList: true, subtree: true, characterData: true });
    return () => observer.disconnect();
  }, []);
  return main;
}

function BarLink({ view, offered }: { readonly view: View; readonly offered: 'bar' | 'more' }) {
  const { language } = useExternal(settings);
  const [here] = useRoute(view.path);
  return (
    <Link href={view.path} className={`bar-link bar-${offered}`} aria-current={here ? 'page' : undefined}>
      {view.label?.[language]}
    </Link>
  );
}
