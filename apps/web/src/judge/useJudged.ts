import { startTransition, useEffect, useRef, useState } from 'react';
import { useExternalLater } from '../store/external.ts';
import { ask, standing } from './judge.ts';
import type { AnswerTo, Kind, Questions } from './questions.ts';

/**
 * The worker's answer, asked anew when the question or the season changes. The answer before stays until the next one
 * comes; null while there is none to this question. `about`: what the question is about; another one begins anew.
 */
export function useJudged<K extends Kind>(kind: K, question: Questions[K]['ask'], about = ''): AnswerTo<K> | null {
  const { version, kind: stands } = useExternalLater(standing);
  const [found, setFound] = useState<{ readonly about: string; readonly answer: AnswerTo<K> } | null>(null);
  const key = JSON.stringify(question);
  const latest = useRef(question);
  latest.current = question;
  useEffect(() => {
    if (stands !== 'ready') return undefined;
    let gone = false;
    void ask(kind, latest.current).then((answer) => {
      // Long lists of verdicts are drawn in between touches, not before them.
      if (!gone && answer !== null) startTransition(() => setFound({ about, answer }));
    });
    return () => {
      gone = true;
    };
  }, [kind, key, about, version, stands]);
  return found !== null && found.about === about ? found.answer : null;
}
