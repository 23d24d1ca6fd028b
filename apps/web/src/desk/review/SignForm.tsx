import { useState, type FormEvent } from 'react';
import { v7 } from 'uuid';
import { Choice } from '../../app/Choice.tsx';
import { ask } from '../../http/ask.ts';
import { roleOf, session } from '../../session/session.ts';
import { useExternal } from '../../store/external.ts';
import { exchange } from '../../sync/sync.ts';
import { keep, recordOf } from '../../tank/write.ts';
import { useWordsOf } from '../../words/useWords.ts';
import { TextEntry } from '../Entry.tsx';
import type { Ready } from '../ready.tsx';
import { deskWords } from '../words.ts';
import { reviewWords } from './words.ts';
import { toldHere } from '../../refusals/Told.tsx';

/** An electronic signature over the log as this page has it before the signer. */
export function SignForm({ local, batchId }: { readonly local: Ready; readonly batchId: string }) {
  const w = useWordsOf(reviewWords);
  const desk = useWordsOf(deskWords);
  const role = roleOf(useExternal(session));
  // On a shared phone the PIN with which its holder came in.
  const proof = (useExternal(session)?.hand ?? null) === null ? 'password' : 'pin';
  const [meaning, setMeaning] = useState<'reviewed' | 'approved'>('reviewed');
  const [statement, setStatement] = useState(w.statementUsual);
  const [password, setPassword] = useState('');
  const [said, setSaid] = useState<{ readonly bad: boolean; readonly text: string } | null>(null);
  const [busy, setBusy] = useState(false);
  // Kept until there is an answer: one that was lost on its way does not sign twice when it is asked again.
  const [id, setId] = useState(() => v7());
  if (role !== null && role !== 'manager' && role !== 'reviewer') return <p className="faint">{desk.notAllowed}</p>;
  const throughSeq = local.size - 1;
  const sign = async (): Promise<void> => {
    setBusy(true);
    setSaid(password === '' ? await withoutProof() : await withPassword());
    setPassword('');
    setBusy(false);
  };
  const withPassword = async (): Promise<{ bad: boolean; text: string }> => {
    const path = `/operations/${session.get()?.operationId ?? ''}/batches/${batchId}/reviews`;
    const answer = await ask(path, { method: 'POST', json: { id, throughSeq, meaning, statement, [proof]: password } });
    if (answer.kind === 'ok' || answer.kind === 'refused') setId(v7());
    if (answer.kind === 'refused') return { bad: true, text: await toldHere(answer.problem.detail) };
    if (answer.kind !== 'ok') return { bad: true, text: w.noReception };
    void exchange();
    return { bad: false, text: w.signed };
  };
  const withoutProof = async (): Promise<{ bad: boolean; text: string }> => {
    const data = { batchId, throughSeq, meaning, statement };
    const problem = await keep(local, [recordOf(local, { type: 'batch.reviewed', data, at: Date.now() })]);
    return problem === null ? { bad: false, text: w.recorded } : { bad: true, text: await toldHere(problem.detail) };
  };
  const submit = (event: FormEvent): void => {
    event.preventDefault();
    void sign();
  };
  return (
    <form className="stack" onSubmit={submit}>
      <p className="faint small">{w.covers(local.size)}</p>
      <Choice
        legend={w.meaning}
        options={[
          ['reviewed', w.reviewed],
          ['approved', w.approved],
        ]}
        value={meaning}
        onChange={setMeaning}
      />
      <TextEntry label={w.statement} value={statement} onChange={setStatement} lines />
      <TextEntry
        label={w[proof]}
        help={w.passwordHelp}
        type="password"
        {...(proof === 'pin' ? { inputMode: 'numeric' } : { autoComplete: 'current-password' })}
        value={password}
        onChange={setPassword}
        optional
      />
      <div className="row">
        <button type="submit" className="button" disabled={busy}>
          {w.sign}
        </button>
        {said !== null && (
          <p role={said.bad ? 'alert' : 'status'} className={said.bad ? 'problem' : 'faint'}>
            {said.text}
          </p>
        )}
      </div>
    </form>
  );
}
