import { useState } from 'react';
import { askFile } from '../../http/ask.ts';
import { saved } from '../../http/saved.ts';
import { roleOf, session } from '../../session/session.ts';
import { useExternal } from '../../store/external.ts';
import { useWordsOf } from '../../words/useWords.ts';
import { saidOf } from '../../refusals/Told.tsx';
import { deskWords } from '../words.ts';
import '../desk.css';
import { ArchiveCard } from './ArchiveCard.tsx';
import { KeyCard } from './KeyCard.tsx';
import { WitnessesCard } from './WitnessesCard.tsx';
import { keepingWords } from './words.ts';

/** What keeps the log honest from outside: archives, checkpoints with witnesses, its key, a log that came from elsewhere. */
export default function KeepingPage() {
  const w = useWordsOf(keepingWords);
  const desk = useWordsOf(deskWords);
  const role = roleOf(useExternal(session));
  return (
    <section className="page narrow">
      <h1>{w.title}</h1>
      <p className="faint">{w.intro}</p>
      <TakeAway />
      {role === 'manager' ? (
        <>
          <WitnessesCard />
          <KeyCard />
          <ArchiveCard />
        </>
      ) : (
        <p className="faint">{desk.onlyManagers}</p>
      )}
    </section>
  );
}

/** The whole log as a file, and its checkpoint. */
function TakeAway() {
  const w = useWordsOf(keepingWords);
  const desk = useWordsOf(deskWords);
  const [said, setSaid] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const take = async (path: string, accept: string, name: string): Promise<void> => {
    setBusy(true);
    setSaid(null);
    const answer = await askFile(`/operations/${session.get()?.operationId ?? ''}${path}`, accept, 600_000);
    setBusy(false);
    if (answer.kind === 'file') saved(answer.blob, name);
    else if (answer.kind !== 'ok') setSaid(await saidOf(answer, desk));
  };
  const today = new Date().toISOString().slice(0, 10);
  return (
    <section className="card" aria-labelledby="away">
      <h2 id="away">{w.away}</h2>
      <p className="faint">{w.awayText}</p>
      <div className="row">
        <button
          type="button"
          className="button"
          disabled={busy}
          onClick={() => void take('/export', 'application/x-tar', `log-${today}.tar`)}
        >
          {busy ? desk.working : w.getArchive}
        </button>
        <button
          type="button"
          className="button quiet"
          disabled={busy}
          onClick={() => void take('/log/checkpoint', 'text/plain', `checkpoint-${today}.txt`)}
        >
          {w.getCheckpoint}
        </button>
      </div>
      {said !== null && (
        <p role="alert" className="problem">
          {said}
        </p>
      )}
    </section>
  );
}
