import { useContext } from 'react';
import { Link } from 'wouter';
import { change, session, signOut } from '../session/session.ts';
import { remember, settings, type Theme, type Units } from '../session/settings.ts';
import { useExternal } from '../store/external.ts';
import { forgetAllUnfinished } from '../store/unfinished.ts';
import { operations } from '../sync/sync.ts';
import type { Language } from '../words/catalogue.ts';
import { useWords } from '../words/useWords.ts';
import { Choice } from './Choice.tsx';
import { offeredTo, Views } from './view.ts';

/** Everything else: the desk's pages, and how this phone is set. */
export default function MorePage() {
  const w = useWords();
  const views = useContext(Views);
  const { language, theme, units } = useExternal(settings);
  const now = useExternal(session);
  const choices = useExternal(operations);
  const languages: readonly (readonly [Language, string])[] = [
    ['en', 'English'],
    ['es', 'Español'],
  ];
  const themes: readonly (readonly [Theme, string])[] = [
    ['auto', w.themeAuto],
    ['light', w.themeLight],
    ['dark', w.themeDark],
    ['sun', w.themeSun],
  ];
  const shown: readonly (readonly [Units, string])[] = [
    ['asWritten', w.unitsNone],
    ['us', w.unitsUs],
    ['metric', w.unitsMetric],
  ];
  return (
    <section className="page narrow">
      <h1>{w.more}</h1>
      <ul className="list links">
        {views.flatMap((view) =>
          offeredTo(view, now) !== 'more'
            ? []
            : [
                <li key={view.path}>
                  <Link href={view.path}>{view.label?.[language]}</Link>
                </li>,
              ],
        )}
      </ul>
      <h2>{w.settings}</h2>
      <Choice legend={w.language} options={languages} value={language} onChange={(to) => remember({ language: to })} />
      <Choice legend={w.theme} options={themes} value={theme} onChange={(to) => remember({ theme: to })} />
      <Choice legend={w.units} options={shown} value={units} onChange={(to) => remember({ units: to })} />
      {choices.length > 1 && (
        <Choice
          legend={w.chooseOperation}
          options={choices.map((each) => [each.operationId, each.operationName] as const)}
          value={now?.operationId ?? ''}
          onChange={(operationId) => change(choices.find((each) => each.operationId === operationId) ?? {})}
        />
      )}
      <p className="faint">{w.installHint}</p>
      <p>
        <button
          type="button"
          className="button quiet"
          onClick={() => {
            forgetAllUnfinished();
            signOut();
          }}
        >
          {w.signOut}
        </button>
      </p>
      <p className="faint">{w.signOutKeeps}</p>
      <p className="faint">{w.caution}</p>
    </section>
  );
}
