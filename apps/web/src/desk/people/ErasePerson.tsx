import { useRef, useState, type FormEvent } from 'react';
import { ask, problemIn, type Answer } from '../../http/ask.ts';
import { listOf, memberOf, textOf } from '../../http/read.ts';
import { whoHere } from '../../records/person.ts';
import { saidOf } from '../../refusals/Told.tsx';
import { session } from '../../session/session.ts';
import type { SentRecord } from '../../store/queued.ts';
import { exchange } from '../../sync/sync.ts';
import { recordOf } from '../../tank/write.ts';
import { useWordsOf } from '../../words/useWords.ts';
import { TextEntry } from '../Entry.tsx';
import type { Ready } from '../ready.tsx';
import { deskWords } from '../words.ts';
import { peopleWords } from './words.ts';

interface Props {
  readonly local: Ready;
  readonly personId: string;
  readonly name: string;
}

/**
 * Erases a person's name, with what that means told first, and asked twice. The service answers at once, since it refuses
 * until the records' time is over: nothing of it waits on this device.
 */
export function ErasePerson({ local, personId, name }: Props) {
  const w = useWordsOf(peopleWords);
  const desk = useWordsOf(deskWords);
  const [reason, setReason] = useState('');
  const [state, setState] = useState<'idle' | 'asking' | 'working' | 'done'>('idle');
  const [said, setSaid] = useState<string | null>(null);
  // The same erasure is sent again where its answer was lost: another one would be a further record about the person.
  const made = useRef<SentRecord | null>(null);
  const next = (event: FormEvent): void => {
    event.preventDefault();
    setSaid(null);
    setState('asking');
  };
  const erase = (): void => {
    setState('working');
    const who = whoHere(local.season);
    const data = { personId, reason };
    // Whoever is erased is not named anew in it.
    const by = who === null || who === personId ? {} : { performedBy: who };
    const again = memberOf(made.current?.data, 'reason') === reason ? made.current : null;
    const record = again ?? recordOf(local, { type: 'person.erased', data, at: Date.now(), ...by });
    made.current = record;
    void sent(record).then(async (answer) => {
      if (answer.kind === 'ok') {
        setState('done');
        void exchange();
        return;
      }
      const trouble = await saidOf(answer, desk);
      setSaid(answer.kind === 'refused' ? `${w.notErased} ${trouble}` : trouble);
      setState('idle');
    });
  };
  return (
    <form className="stack record-form no-print" onSubmit={next}>
      <h3>{w.eraseWhat}</h3>
      <p>{w.eraseDoes}</p>
      <h3>{w.eraseNot}</h3>
      <ul className="stack">
        <li>{w.eraseNotRecords}</li>
        <li>{w.eraseNotTexts}</li>
        <li>{w.eraseNotCopies}</li>
        <li>{w.eraseNotAccess}</li>
      </ul>
      <p>
        <strong>{w.eraseWhen}</strong>
      </p>
      <TextEntry
        label={w.reason}
        help={w.reasonHelp}
        value={reason}
        onChange={(to) => {
          setReason(to);
          setState('idle');
        }}
      />
      {state === 'idle' && (
        <p>
          <button type="submit" className="button quiet">
            {w.eraseNext}
          </button>
        </p>
      )}
      {(state === 'asking' || state === 'working') && (
        <div className="row" role="group" aria-label={w.eraseSure(name)}>
          <p role="alert" className="problem">
            {w.eraseSure(name)}
          </p>
          <button type="button" className="button" disabled={state === 'working'} onClick={erase}>
            {w.eraseYes}
          </button>
          <button
            type="button"
            className="button quiet"
            disabled={state === 'working'}
            onClick={() => setState('idle')}
          >
            {desk.leaveIt}
          </button>
        </div>
      )}
      {state === 'done' && <p role="status">{w.erasedNow}</p>}
      {said !== null && (
        <p role="alert" className="problem">
          {said}
        </p>
      )}
    </form>
  );
}

/** What the service says to this one record: a refusal of it counts as one of the request. */
async function sent(record: SentRecord): Promise<Answer> {
  const { operationId = null } = session.get() ?? {};
  const answer = await ask(`/operations/${operationId ?? ''}/records`, {
    method: 'POST',
    json: { records: [record], sentAt: new Date().toISOString() },
  });
  if (answer.kind !== 'ok') return answer;
  const result = listOf(answer.body, 'results').find((each) => textOf(each, 'id') === record.id);
  if (textOf(result, 'status') !== 'refused') return answer;
  const problem = problemIn(memberOf(result, 'problem'));
  // The sentence says it all; its entry repeats the day.
  return { kind: 'refused', status: 422, problem: { ...problem, errors: [] } };
}
