import { useEffect, useState } from 'react';
import { PasswordForm, TokenForm } from '../app/SignInPage.tsx';
import { whenText } from '../clock/text.ts';
import { useNow } from '../clock/useNow.ts';
import { lineOf } from '../records/line.ts';
import { useSeason } from '../season/useSeason.ts';
import { session } from '../session/session.ts';
import { settings } from '../session/settings.ts';
import { signInWith } from '../session/signing.ts';
import { database } from '../store/database.ts';
import { useExternal } from '../store/external.ts';
import { held } from '../store/held.ts';
import { enqueue, everythingQueued, letGo } from '../store/queue.ts';
import type { Queued } from '../store/queued.ts';
import { useWords, useWordsOf } from '../words/useWords.ts';
import './waiting.css';
import { exchange } from './sync.ts';
import { syncWords } from './words.ts';
import { Told } from '../refusals/Told.tsx';

/** Everything that this phone holds and the log does not: the state of each, and what can be done. */
export default function WaitingPage() {
  const w = useWordsOf(syncWords);
  const shell = useWords();
  const store = useExternal(held);
  const now = useExternal(session);
  const { language } = useExternal(settings);
  const clock = useNow();
  const [saved, setSaved] = useState(false);
  const queue = store?.queue ?? [];
  const waits = queue.filter(({ state }) => state.kind !== 'refused');
  const refused = queue.filter(({ state }) => state.kind === 'refused');
  const zone = now?.timeZone ?? 'UTC';
  const heardAt = store?.heardAt ?? null;
  const photos = useFiles(queue.length);
  return (
    <section className="page narrow">
      <h1>{w.title}</h1>
      <p className="faint small">
        {heardAt === null ? w.neverHeard : w.heard(whenText(heardAt, zone, language, clock))}
      </p>
      {now?.ended === true && (
        <section className="card">
          <h2>{shell.signInAgain}</h2>
          <p>{shell.signInAgainText(waits.length)}</p>
          <PasswordForm enter={signInWith} />
          <details>
            <summary>{shell.tokenInstead}</summary>
            <TokenForm />
          </details>
        </section>
      )}
      {queue.length === 0 && photos === 0 && <p>{w.nothing}</p>}
      {photos > 0 && <p>{w.files(photos)}</p>}
      {refused.length > 0 && (
        <section className="stack" aria-labelledby="refused">
          <h2 id="refused">{w.refusedTitle}</h2>
          <p className="faint small">{w.refusedText}</p>
          <ul className="list">
            {refused.map((each) => (
              <QueuedCard key={each.id} queued={each} zone={zone} now={clock} />
            ))}
          </ul>
        </section>
      )}
      {waits.length > 0 && (
        <section className="stack" aria-labelledby="waiting">
          <h2 id="waiting">{w.waitingTitle}</h2>
          <p className="faint small">{w.waitingText}</p>
          <ul className="list">
            {waits.map((each) => (
              <QueuedCard key={each.id} queued={each} zone={zone} now={clock} />
            ))}
          </ul>
          <button type="button" className="button wide" onClick={() => void exchange()}>
            {w.sendNow}
          </button>
        </section>
      )}
      {queue.length > 0 && (
        <section className="stack">
          <button
            type="button"
            className="button quiet wide"
            onClick={() => void saveAsFile().then(() => setSaved(true))}
          >
            {w.save}
          </button>
          <p className="faint small" role="status">
            {saved ? w.saved : w.fileText}
          </p>
        </section>
      )}
    </section>
  );
}

function QueuedCard({ queued, zone, now }: { readonly queued: Queued; readonly zone: string; readonly now: number }) {
  const w = useWordsOf(syncWords);
  const set = useExternal(settings);
  const state = useSeason();
  const [asking, setAsking] = useState(false);
  const { record } = queued;
  const at = (text: string | undefined): string =>
    text === undefined ? '' : whenText(Date.parse(text), zone, set.language, now);
  const parsed = state.kind === 'ready' ? state.engine.domain.parseDraft(record, { now }) : null;
  const line = state.kind === 'ready' && parsed?.ok === true ? lineOf(state, parsed.draft, set) : null;
  const batchId = record.data['batchId'];
  const batch = state.kind === 'ready' && typeof batchId === 'string' ? state.season.batch(batchId) : undefined;
  return (
    <li className="card queued">
      <p>
        <strong>{line?.what ?? record.type}</strong> {line?.detail}{' '}
        {batch !== undefined && <span className="faint">{batch.code}</span>}
      </p>
      <p className="faint small">
        {w.happened(at(record.occurredAt))} · {w.entered(at(record.enteredAt))}
        {queued.by === undefined ? '' : ` · ${queued.by.name}`}
      </p>
      {queued.state.kind === 'refused' && (
        <>
          <p className="problem" role="alert">
            <Told text={queued.state.problem.detail} />
          </p>
          <div className="row">
            <button type="button" className="button quiet" onClick={() => void again(queued)}>
              {w.sendAgain}
            </button>
            <button type="button" className="button quiet" onClick={() => setAsking(true)}>
              {w.letGo}
            </button>
          </div>
          {asking && (
            <div className="stack" role="alertdialog" aria-label={w.letGo}>
              <p>{w.letGoSure}</p>
              <div className="row">
                <button type="button" className="button" onClick={() => void letGo(queued.id)}>
                  {w.letGoYes}
                </button>
                <button type="button" className="button quiet" onClick={() => setAsking(false)}>
                  {w.keep}
                </button>
              </div>
            </div>
          )}
        </>
      )}
    </li>
  );
}

async function again({ operationId, record, by }: Queued): Promise<void> {
  await enqueue(operationId, [record], [], by);
  await exchange();
}

function useFiles(changed: number): number {
  const [count, setCount] = useState(0);
  useEffect(() => {
    void database()
      .then((db) => db.count('files'))
      .then(setCount);
  }, [changed]);
  return count;
}

/** One record a line, as the service's import reads them. */
async function saveAsFile(): Promise<void> {
  const all = await everythingQueued();
  const lines = all.toSorted((a, b) => a.order - b.order).map(({ record }) => `${JSON.stringify(record)}\n`);
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob(lines, { type: 'application/x-ndjson' }));
  link.download = `furrowmark-waiting-${new Date().toISOString().slice(0, 16).replace(':', '')}.ndjson`;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}
