import { useEffect, useState } from 'react';
import { ask, type Answer } from '../../http/ask.ts';
import { session } from '../../session/session.ts';
import { previewIn, type Preview } from './preview.ts';

export interface Looked {
  readonly preview: Preview | null;
  readonly trouble: Exclude<Answer, { kind: 'ok' }> | null;
  readonly busy: boolean;
}

/** Milliseconds after the last change that the file is looked at again: somebody is choosing. */
const pause = 350;

/** What the file would become, looked at anew whenever what is said about it changes. `null`: there is no file yet. */
export function usePreview(request: object | null): Looked {
  const [looked, setLooked] = useState<Looked>({ preview: null, trouble: null, busy: false });
  const text = request === null ? null : JSON.stringify(request);
  useEffect(() => {
    if (text === null) {
      setLooked({ preview: null, trouble: null, busy: false });
      return;
    }
    const end = new AbortController();
    setLooked((before) => ({ ...before, busy: true }));
    const timer = setTimeout(() => {
      const json: unknown = JSON.parse(text);
      const path = `/operations/${session.get()?.operationId ?? ''}/import/preview`;
      void ask(path, { method: 'POST', json, signal: end.signal }).then((answer) => {
        if (end.signal.aborted) return;
        setLooked(
          answer.kind === 'ok'
            ? { preview: previewIn(answer.body), trouble: null, busy: false }
            : { preview: null, trouble: answer, busy: false },
        );
      });
    }, pause);
    return () => {
      clearTimeout(timer);
      end.abort();
    };
  }, [text]);
  return looked;
}
