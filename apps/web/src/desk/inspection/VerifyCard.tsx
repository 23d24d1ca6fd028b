import { useState, type FormEvent } from 'react';
import { useWordsOf } from '../../words/useWords.ts';
import { Told } from '../../refusals/Told.tsx';
import { session } from '../../session/session.ts';
import { FigureEntry, TextEntry } from '../Entry.tsx';
import { ScanPage } from './ScanPage.tsx';
import { verifyPage, type PageCheck } from './verifyPage.ts';
import { inspectionWords } from './words.ts';

/** Whether a printed page still matches the log. */
export function VerifyCard() {
  const w = useWordsOf(inspectionWords);
  const [size, setSize] = useState('');
  const [root, setRoot] = useState('');
  const [read, setRead] = useState<number | null>(null);
  const [said, setSaid] = useState<PageCheck | null>(null);
  const [foreign, setForeign] = useState(false);
  const check = (entries: number, of: string): void => {
    setForeign(false);
    setSaid(null);
    setRead(0);
    void verifyPage(entries, of, setRead).then((found) => {
      setSaid(found);
      setRead(null);
    });
  };
  return (
    <section className="card no-print" aria-labelledby="verify">
      <h2 id="verify">{w.verify}</h2>
      <p className="faint">{w.verifyText}</p>
      <ScanPage
        onFound={(found) => {
          setSize(String(found.size));
          setRoot(found.root);
          setSaid(null);
          if (found.origin === `furrowmark/${session.get()?.operationId ?? ''}`) check(found.size, found.root);
          else setForeign(true);
        }}
      />
      {foreign && (
        <p role="alert" className="problem">
          {w.foreign}
        </p>
      )}
      <form
        className="stack record-form"
        onSubmit={(event: FormEvent) => {
          event.preventDefault();
          check(Number(size), root);
        }}
      >
        <FigureEntry label={w.size} value={size} onChange={setSize} />
        <TextEntry label={w.root} value={root} onChange={setRoot} />
        <p>
          <button type="submit" className="button" disabled={read !== null}>
            {read === null ? w.check : w.checking(read)}
          </button>
        </p>
      </form>
      {said !== null && <Said said={said} size={Number(size)} />}
    </section>
  );
}

function Said({ said, size }: { readonly said: PageCheck; readonly size: number }) {
  const w = useWordsOf(inspectionWords);
  switch (said.kind) {
    case 'matches':
      return (
        <p role="status" className="verdict met">
          <span aria-hidden="true">●</span> {w.matches(size, said.now)}
        </p>
      );
    case 'proven':
      return (
        <p role="status" className="verdict met">
          <span aria-hidden="true">●</span> {w.proven(size, said.now)}
        </p>
      );
    case 'altered':
      return (
        <p role="alert" className="verdict broken">
          <span aria-hidden="true">✕</span> {w.altered}
        </p>
      );
    case 'tooShort':
      return (
        <p role="alert" className="verdict broken">
          <span aria-hidden="true">✕</span> {w.tooShort(said.now)}
        </p>
      );
    case 'refused':
      return (
        <p role="alert">
          <Told text={said.said} />
        </p>
      );
    case 'unreachable':
      return <p role="alert">{w.noReception}</p>;
  }
}
