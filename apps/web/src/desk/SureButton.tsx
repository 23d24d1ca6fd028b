import { useState } from 'react';
import type { Answer } from '../http/ask.ts';
import { useWordsOf } from '../words/useWords.ts';
import { saidOf } from '../refusals/Told.tsx';
import { deskWords } from './words.ts';

interface Props {
  readonly label: string;
  /** What is asked once more before it is done. */
  readonly sure: string;
  /** What it is about, for who hears the page. */
  readonly about: string;
  readonly send: () => Promise<Answer>;
  readonly onDone: () => void;
}

/** Something that ends: touched twice, with what it means in between. */
export function SureButton({ label, sure, about, send, onDone }: Props) {
  const w = useWordsOf(deskWords);
  const [state, setState] = useState<'idle' | 'asking' | 'working'>('idle');
  const [said, setSaid] = useState<string | null>(null);
  if (state === 'idle') {
    return (
      <span className="row">
        <button
          type="button"
          className="button quiet"
          aria-label={`${label}: ${about}`}
          onClick={() => setState('asking')}
        >
          {label}
        </button>
        {said !== null && (
          <span role="alert" className="problem">
            {said}
          </span>
        )}
      </span>
    );
  }
  return (
    <span className="row" role="group" aria-label={sure}>
      <span>{sure}</span>
      <button
        type="button"
        className="button"
        disabled={state === 'working'}
        onClick={() => {
          setState('working');
          void send().then(async (answer) => {
            setState('idle');
            if (answer.kind === 'ok') onDone();
            else setSaid(await saidOf(answer, w));
          });
        }}
      >
        {label}
      </button>
      <button type="button" className="button quiet" onClick={() => setState('idle')}>
        {w.leaveIt}
      </button>
    </span>
  );
}
