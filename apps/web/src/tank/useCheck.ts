import type { Outcome } from '@furrowmark/rules';
import { useEffect, useState } from 'react';
import { ask } from '../judge/judge.ts';
import type { LocalSeason } from '../season/local.ts';
import type { SentRecord } from '../store/queued.ts';

/**
 * What a draft would break or come near, judged on this phone while it is being written. null: not judged yet (nothing
 * to judge, or it could not be recorded as it is). `draft` is judged anew when `key` changes.
 */
export function useCheck(local: LocalSeason, draft: SentRecord | null, key: string): readonly Outcome[] | null {
  const [found, setFound] = useState<readonly Outcome[] | null>(null);
  useEffect(() => {
    if (draft === null) {
      setFound(null);
      return undefined;
    }
    let gone = false;
    const timer = setTimeout(() => {
      const now = Date.now();
      // Here too, not with the touch that records it: the first of a kind makes the shapes that it is checked against.
      if (!local.engine.domain.parseDraft(draft, { now }).ok) {
        setFound(null);
        return;
      }
      void ask('check', { drafts: [draft], now }).then((outcomes) => {
        if (!gone) setFound(outcomes?.filter(speaksUp) ?? null);
      });
    }, 200);
    return () => {
      gone = true;
      clearTimeout(timer);
    };
    // The draft's id and time of entry change all the time; what it says is in `key`.
  }, [key, local]);
  return found;
}

/** What is due or not yet known is the tank's ordinary course; only what is broken or near a limit speaks up. */
const speaksUp = ({ outcome }: Outcome): boolean => outcome === 'broken' || outcome === 'caution';
