import { useEffect, useState } from 'react';
import { ask, askFile } from '../../http/ask.ts';
import { textOf } from '../../http/read.ts';
import { session } from '../../session/session.ts';
import { useWordsOf } from '../../words/useWords.ts';
import { TextEntry } from '../Entry.tsx';
import { ServiceForm } from '../ServiceForm.tsx';
import { keepingWords } from './words.ts';

/** The key whose public half outsiders hold, shown to be printed; and how it is replaced. */
export function KeyCard() {
  const w = useWordsOf(keepingWords);
  const [line, setLine] = useState<string | null>(null);
  const [reason, setReason] = useState('');
  const path = `/operations/${session.get()?.operationId ?? ''}/log/key`;
  useEffect(() => {
    void askFile(path, 'text/plain').then((answer) => {
      if (answer.kind === 'file') void answer.blob.text().then((text) => setLine(text.trim()));
    });
  }, [path]);
  return (
    <section className="card" aria-labelledby="key">
      <h2 id="key">{w.key}</h2>
      <p className="faint">{w.keyText}</p>
      {line !== null && (
        <p>
          <code className="key-line">{line}</code>
        </p>
      )}
      <details>
        <summary>{w.replaceKey}</summary>
        <p>{w.replaceText}</p>
        <ServiceForm
          label={w.replaceKey}
          done={w.replaced}
          send={() => ask(path, { method: 'POST', json: { reason } })}
          onDone={(body) => {
            setLine(textOf(body, 'key'));
            setReason('');
          }}
        >
          <TextEntry label={w.reason} help={w.reasonHelp} value={reason} onChange={setReason} />
        </ServiceForm>
      </details>
    </section>
  );
}
