import { Suspense, useEffect } from 'react';
import { Redirect, Route, Switch } from 'wouter';
import { session } from '../session/session.ts';
import { settings } from '../session/settings.ts';
import { hold } from '../store/held.ts';
import { useExternal } from '../store/external.ts';
import { useWords } from '../words/useWords.ts';
import { Frame } from './Frame.tsx';
import { invitation, SignInPage } from './SignInPage.tsx';
import { Skeleton } from './Skeleton.tsx';
import { Stumble } from './Stumble.tsx';
import { Views } from './view.ts';
import { views } from './views.ts';

/** The frame and the page that the address names. */
export function App() {
  const { language, theme } = useExternal(settings);
  const now = useExternal(session);
  useEffect(() => {
    document.documentElement.lang = language;
    document.documentElement.dataset['theme'] = theme;
  }, [language, theme]);
  const operationId = now?.operationId ?? null;
  useEffect(() => {
    if (operationId !== null) void hold(operationId);
  }, [operationId]);

  const invited = useExternal(invitation);
  if (now === null || operationId === null || invited !== null) return <SignInPage />;
  return (
    <Views value={views}>
      <Frame>
        <Stumble>
          <Suspense fallback={<Skeleton />}>
            <Switch>
              {now.link === true && (
                <Route path="/">
                  <Redirect to="/inspection" replace />
                </Route>
              )}
              {views.map(({ path, page: Page }) => (
                <Route key={path} path={path}>
                  <Page />
                </Route>
              ))}
              <Route>
                <Lost />
              </Route>
            </Switch>
          </Suspense>
        </Stumble>
      </Frame>
    </Views>
  );
}

function Lost() {
  const w = useWords();
  return (
    <section className="page">
      <h1>{w.nothingHere}</h1>
      <p>{w.nothingHereDo}</p>
    </section>
  );
}
