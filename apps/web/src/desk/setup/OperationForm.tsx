import { useState, type FormEvent } from 'react';
import { ask } from '../../http/ask.ts';
import { change } from '../../session/session.ts';
import { exchange, operations } from '../../sync/sync.ts';
import { useWordsOf } from '../../words/useWords.ts';
import { FigureEntry, TextEntry } from '../Entry.tsx';
import { setupWords } from './words.ts';
import { toldHere } from '../../refusals/Told.tsx';

/** A new operation; whoever creates it is its manager. */
export function OperationForm() {
  const w = useWordsOf(setupWords);
  const [name, setName] = useState('');
  const [timeZone, setZone] = useState(Intl.DateTimeFormat().resolvedOptions().timeZone);
  const [elevation, setElevation] = useState('');
  const [busy, setBusy] = useState(false);
  const [said, setSaid] = useState<string | null>(null);
  const create = async (): Promise<void> => {
    setBusy(true);
    const more = elevation.trim() === '' ? {} : { elevation: { value: Number(elevation), unit: 'm' } };
    const answer = await ask('/operations', { method: 'POST', json: { name, timeZone, ...more } });
    setBusy(false);
    const { body } = answer.kind === 'ok' ? answer : { body: null };
    const operationId: unknown = typeof body === 'object' && body !== null ? Reflect.get(body, 'operationId') : null;
    if (typeof operationId !== 'string') {
      setSaid(answer.kind === 'refused' ? await toldHere(answer.problem.detail) : w.noReception);
      return;
    }
    const own = { operationId, operationName: name, timeZone, role: 'manager' };
    operations.set([...operations.get(), own]);
    history.replaceState(null, '', '/setup');
    change(own);
    void exchange();
  };
  const submit = (event: FormEvent): void => {
    event.preventDefault();
    void create();
  };
  return (
    <form className="stack record-form" onSubmit={submit}>
      <TextEntry label={w.opName} value={name} onChange={setName} />
      <TextEntry label={w.zone} help={w.zoneHelp} value={timeZone} onChange={setZone} />
      <FigureEntry
        label={w.elevation}
        signed
        help={w.elevationHelp}
        value={elevation}
        onChange={setElevation}
        optional
      />
      <div className="row">
        <button type="submit" className="button" disabled={busy}>
          {busy ? w.creating : w.create}
        </button>
        {said !== null && (
          <p role="alert" className="problem">
            {said}
          </p>
        )}
      </div>
    </form>
  );
}
