import { useState, type FormEvent, type ReactNode } from 'react';
import type { Answer } from '../http/ask.ts';
import { toldHere } from '../refusals/Told.tsx';
import type { Translated } from '../words/catalogue.ts';
import { useWordsOf } from '../words/useWords.ts';
import { deskWords } from './words.ts';

type Words = Translated<(typeof deskWords)['en']>;

/** What an answer that is not good says to a person: the service's own words, and which entry they are about. */
export function saidOf(answer: Exclude<Answer, { kind: 'ok' }>, w: Words): string {
  if (answer.kind === 'refused') {
    const { detail, errors } = answer.problem;
    return [detail, ...errors.map((each) => each.detail).filter((text) => !detail.includes(text))]
      .map(toldHere)
      .join(' ');
  }
  return answer.kind === 'ended' ? w.signedOut : answer.kind === 'busy' ? w.busy(answer.seconds) : w.needsReception;
}

interface Props {
  /** Asks the service; null where something has to be filled in first. */
  readonly send: () => Promise<Answer> | null;
  readonly label: string;
  /** Said when it was done. */
  readonly done: string;
  readonly onDone?: (body: unknown) => void;
  readonly quiet?: boolean;
  readonly children?: ReactNode;
}

/** A short form that the service answers at once. It needs reception: nothing of it waits on this device. */
export function ServiceForm({ send, label, done, onDone, quiet = false, children }: Props) {
  const w = useWordsOf(deskWords);
  const [said, setSaid] = useState<{ readonly bad: boolean; readonly text: string } | null>(null);
  const [busy, setBusy] = useState(false);
  const submit = (event: FormEvent): void => {
    event.preventDefault();
    const asked = send();
    if (asked === null) return;
    setBusy(true);
    setSaid(null);
    void asked.then((answer) => {
      setBusy(false);
      if (answer.kind !== 'ok') return setSaid({ bad: true, text: saidOf(answer, w) });
      setSaid({ bad: false, text: done });
      onDone?.(answer.body);
    });
  };
  return (
    <form className="stack record-form no-print" onSubmit={submit}>
      {children}
      <div className="row">
        <button type="submit" className={quiet ? 'button quiet' : 'button'} disabled={busy}>
          {label}
        </button>
        {said !== null && (
          <p role={said.bad ? 'alert' : 'status'} className={said.bad ? 'problem' : 'faint'}>
            {said.text}
          </p>
        )}
      </div>
    </form>
  );
}
