import type { ComponentType } from 'react';
import { EmptyPage } from '../app/EmptyPage.tsx';
import { useSeason, type SeasonState } from '../season/useSeason.ts';
import { useWords } from '../words/useWords.ts';
import './desk.css';

/** The season, folded and at hand. */
export type Ready = Extract<SeasonState, { kind: 'ready' }>;

/** A page that is drawn once the season is at hand; it says so while the past is still on its way. */
export function onSeason(Page: ComponentType<{ readonly local: Ready }>): ComponentType {
  return function OnSeason() {
    const state = useSeason();
    const w = useWords();
    if (state.kind !== 'ready') return <EmptyPage kind={state.kind} />;
    return (
      <>
        {!state.whole && (
          <p role="status" className="coming">
            {w.pastComing}
          </p>
        )}
        <Page local={state} />
      </>
    );
  };
}
