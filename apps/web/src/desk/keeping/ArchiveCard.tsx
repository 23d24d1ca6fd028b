import { useState } from 'react';
import { ask } from '../../http/ask.ts';
import { numberOf, textOf } from '../../http/read.ts';
import { change, session } from '../../session/session.ts';
import { exchange } from '../../sync/sync.ts';
import { useWordsOf } from '../../words/useWords.ts';
import { FilePick } from '../FilePick.tsx';
import { TextEntry } from '../Entry.tsx';
import { ServiceForm } from '../ServiceForm.tsx';
import { keepingWords } from './words.ts';

interface Taken {
  readonly operationId: string;
  readonly size: number;
  readonly key: string | null;
}

/** A log that comes from another service as an archive: looked at here, then carried on here. */
export function ArchiveCard() {
  const w = useWordsOf(keepingWords);
  const [file, setFile] = useState<File | null>(null);
  const [key, setKey] = useState('');
  const [taken, setTaken] = useState<Taken | null>(null);
  const query = key.trim() === '' ? '' : `?key=${encodeURIComponent(key.trim())}`;
  return (
    <section className="card" aria-labelledby="archive">
      <h2 id="archive">{w.archive}</h2>
      <p className="faint">{w.archiveText}</p>
      <details>
        <summary>{w.takeArchive}</summary>
        <ServiceForm
          label={w.takeArchive}
          done={w.archiveTaken}
          send={() =>
            file === null
              ? null
              : ask(`/operations/import${query}`, {
                  method: 'POST',
                  body: file,
                  headers: { 'content-type': 'application/x-tar' },
                  patience: 600_000,
                })
          }
          onDone={(body) => {
            const operationId = textOf(body, 'operationId');
            if (operationId === null) return;
            setTaken({ operationId, size: numberOf(body, 'size') ?? 0, key: textOf(body, 'key') });
          }}
        >
          <FilePick label={w.archiveFile} accept=".tar,application/x-tar" file={file} onPick={setFile} />
          <TextEntry label={w.knownKey} help={w.knownKeyHelp} value={key} onChange={setKey} optional />
        </ServiceForm>
        {taken !== null && (
          <div className="notice stack" role="status">
            <p>{w.entriesTaken(taken.size)}</p>
            {taken.key !== null && (
              <p>
                {w.signedBy} <code className="key-line">{taken.key}</code>
              </p>
            )}
            <button
              type="button"
              className="button quiet"
              onClick={() => {
                change({ operationId: taken.operationId, role: null, operationName: null, timeZone: null });
                void exchange();
              }}
            >
              {w.openIt}
            </button>
          </div>
        )}
      </details>
      <TakeOver />
    </section>
  );
}

/** From now on the imported log is carried on here, under a key of this service. */
function TakeOver() {
  const w = useWordsOf(keepingWords);
  const [reason, setReason] = useState('');
  return (
    <details>
      <summary>{w.takeOver}</summary>
      <p>{w.takeOverText}</p>
      <ServiceForm
        label={w.takeOver}
        done={w.takenOver}
        send={() =>
          ask(`/operations/${session.get()?.operationId ?? ''}/take-over`, {
            method: 'POST',
            json: reason.trim() === '' ? {} : { reason },
          })
        }
      >
        <TextEntry label={w.reason} help={w.reasonHelp} value={reason} onChange={setReason} optional />
      </ServiceForm>
    </details>
  );
}
