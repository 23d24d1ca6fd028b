import { useState, type FormEvent, type ReactNode } from 'react';
import type { Answer } from '../http/ask.ts';
import { saidOf } from '../refusals/Told.tsx';
import { useWordsOf } from '../words/useWords.ts';
import { deskWords } from './words.ts';

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
    void asked.then(async (answer) => {
      const trouble = answer.kind === 'ok' ? null : await saidOf(answer, w);
      setBusy(false);
      if (trouble !== null) return setSaid({ bad: true, text: trouble });
      setSaid({ bad: false, text: done });
      if (answer.kind === 'ok') onDone?.(answer.body);
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
