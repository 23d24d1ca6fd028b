import { useState } from 'react';
import { askFile } from '../http/ask.ts';
import { saved } from '../http/saved.ts';
import { toldHere } from '../refusals/Told.tsx';
import { session } from '../session/session.ts';
import { settings } from '../session/settings.ts';
import { useWordsOf } from '../words/useWords.ts';
import { deskWords } from './words.ts';

interface Props {
  /** Below the operation's reports: `recall-sheet.pdf?lot=…`. */
  readonly report: string;
  readonly label: string;
  /** What the file is called, with its ending. */
  readonly name: string;
}

/** A report as a file, made by the service. */
export function FileButton({ report, label, name }: Props) {
  const w = useWordsOf(deskWords);
  const [state, setState] = useState<'idle' | 'working' | { readonly said: string }>('idle');
  const get = async (): Promise<void> => {
    setState('working');
    const path = `/operations/${session.get()?.operationId ?? ''}/reports/${report}`;
    const language = `${report.includes('?') ? '&' : '?'}language=${settings.get().language}`;
    const answer = await askFile(path + language, '*/*');
    if (answer.kind !== 'file') {
      setState({ said: answer.kind === 'refused' ? await toldHere(answer.problem.detail) : w.fileFailed });
      return;
    }
    saved(answer.blob, name);
    setState('idle');
  };
  return (
    <span className="file-button">
      <button type="button" className="button quiet" disabled={state === 'working'} onClick={() => void get()}>
        {state === 'working' ? w.working : label}
      </button>
      {typeof state === 'object' && (
        <span role="alert" className="problem">
          {state.said}
        </span>
      )}
    </span>
  );
}
