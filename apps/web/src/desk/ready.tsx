import type { ComponentType } from 'react';
import { EmptyPage } from '../app/EmptyPage.tsx';
import { Skeleton } from '../app/Skeleton.tsx';
import { useSeason, type SeasonState } from '../season/useSeason.ts';
import { useWords } from '../words/useWords.ts';
import './desk.css';

/** The season, folded and at hand. */
export type Ready = Extract<SeasonState, { kind: 'ready' }>;

/**
 * A page that is drawn once the whole season is at hand. While the past is still on its way nothing is drawn from the
 * part: a recall sheet that leaves out half the fields would be worse than none. `early`: a page that reads none of it.
 */
export function onSeason(Page: ComponentType<{ readonly local: Ready }>, early = false): ComponentType {
  return function OnSeason() {
    const state = useSeason();
    const w = useWords();
    if (state.kind !== 'ready') return <EmptyPage kind={state.kind} />;
    if (state.whole || early) return <Page local={state} />;
    return (
      <>
        <p role="status" className="coming">
          {w.pastComing}
        </p>
        <Skeleton />
      </>
    );
  };
}
