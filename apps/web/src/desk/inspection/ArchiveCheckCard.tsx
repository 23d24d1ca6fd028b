import { useState } from 'react';
import { useWordsOf } from '../../words/useWords.ts';
import { Told } from '../../refusals/Told.tsx';
import { TextEntry } from '../Entry.tsx';
import { FilePick } from '../FilePick.tsx';
import { verifyArchive, type ArchiveCheck } from './verifyArchive.ts';
import { inspectionWords } from './words.ts';

/** Whether an archive's entries are whole, worked out on this device. */
export function ArchiveCheckCard() {
  const w = useWordsOf(inspectionWords);
  const [file, setFile] = useState<File | null>(null);
  const [key, setKey] = useState('');
  const [read, setRead] = useState<number | null>(null);
  const [found, setFound] = useState<ArchiveCheck | null>(null);
  const check = (chosen: File): void => {
    setFound(null);
    setRead(0);
    void verifyArchive(chosen, key, setRead)
      .catch((): ArchiveCheck => ({ kind: 'noArchive' }))
      .then((answer) => {
        setFound(answer);
        setRead(null);
      });
  };
  return (
    <section className="card no-print" aria-labelledby="archive-check">
      <h2 id="archive-check">{w.archive}</h2>
      <p className="faint">{w.archiveText}</p>
      <form
        className="stack record-form"
        onSubmit={(event) => {
          event.preventDefault();
          if (file !== null) check(file);
        }}
      >
        <FilePick label={w.archiveFile} accept=".tar,application/x-tar" file={file} onPick={setFile} />
        <TextEntry label={w.heldKey} help={w.heldKeyHelp} value={key} onChange={setKey} optional />
        <p>
          <button type="submit" className="button" disabled={file === null || read !== null}>
            {read === null ? w.checkArchive : w.checking(read)}
          </button>
        </p>
      </form>
      {found !== null && <Found found={found} />}
    </section>
  );
}

function Found({ found }: { readonly found: ArchiveCheck }) {
  const w = useWordsOf(inspectionWords);
  if (found.kind !== 'checked') {
    return (
      <p role="alert" className="problem">
        {found.kind === 'badKey' ? w.badKey : w.noArchive}
      </p>
    );
  }
  const { report, keyKnown } = found;
  if (report.verdict === 'altered') {
    return (
      <div role="alert" className="stack">
        <p className="verdict broken">
          <span aria-hidden="true">✕</span> {w.archiveAltered(report.faults.length)}
        </p>
        <ul>
          {report.faults.map(({ kind, seq, what }) => (
            <li key={`${kind}${String(seq)}${what}`}>
              <Told text={what} />
            </li>
          ))}
        </ul>
      </div>
    );
  }
  return (
    <div role="status" className="stack">
      <p className="verdict met">
        <span aria-hidden="true">●</span> {w.archiveWhole(report.entries)}
      </p>
      <p className="faint">{keyKnown ? w.keyHeld : w.noKeyHeld}</p>
    </div>
  );
}
