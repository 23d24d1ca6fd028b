import type { LogRecord } from '@furrowmark/domain';
import { useState, type FormEvent, type ReactNode } from 'react';
import { whoHere } from '../records/person.ts';
import type { LocalSeason } from '../season/local.ts';
import { roleOf, session } from '../session/session.ts';
import { useExternal } from '../store/external.ts';
import type { BegunBefore } from '../tank/useTyped.ts';
import { keep, recordOf } from '../tank/write.ts';
import { useWordsOf } from '../words/useWords.ts';
import { BegunNote } from './BegunNote.tsx';
import { deskWords } from './words.ts';
import { toldHere } from '../refusals/Told.tsx';

/** A fact to record, as the desk enters it: now, by whoever sits there. */
export interface Fact {
  readonly type: LogRecord['type'];
  readonly data: Readonly<Record<string, unknown>>;
  /** When it happened, ms; now where left out. */
  readonly at?: number | undefined;
}

interface Props {
  readonly local: Pick<LocalSeason, 'engine' | 'season'>;
  /** What is to be recorded; null while something is missing. */
  readonly facts: () => readonly Fact[] | null;
  /** What is doubtful about it, in words: asked once, then kept as written. */
  readonly doubt?: (facts: readonly Fact[]) => string | null;
  readonly children: ReactNode;
  readonly label?: string;
  readonly onDone?: () => void;
  /** What came back of it, half typed. */
  readonly begun?: BegunBefore | null;
  /** Besides managers. */
  readonly alsoBy?: readonly string[];
}

/** A short form at the desk: checked as the service will check it, kept on this device, sent when there is reception. */
export function RecordForm({
  local,
  facts,
  doubt,
  children,
  label,
  onDone,
  begun = null,
  alsoBy = ['reviewer'],
}: Props) {
  const w = useWordsOf(deskWords);
  const now = useExternal(session);
  const [said, setSaid] = useState<{ readonly kind: 'done' | 'problem'; readonly text: string } | null>(null);
  const [busy, setBusy] = useState(false);
  /** What was asked about, and what it was asked of. */
  const [asked, setAsked] = useState<{ readonly text: string; readonly of: string } | null>(null);
  const role = roleOf(now);
  if (role !== null && role !== 'manager' && !alsoBy.includes(role)) return <p className="faint">{w.notAllowed}</p>;
  const submit = (event: FormEvent): void => {
    event.preventDefault();
    const list = facts();
    if (list === null) return;
    if (list.some(({ at }) => at !== undefined && at > Date.now())) {
      setSaid({ kind: 'problem', text: w.liesAhead });
      return;
    }
    const text = doubt?.(list) ?? null;
    const of = JSON.stringify(list.map(({ data }) => data));
    if (text !== null && asked?.of !== of) {
      setSaid(null);
      setAsked({ text, of });
      return;
    }
    setAsked(null);
    const who = whoHere(local.season);
    setBusy(true);
    const records = list.map((fact) =>
      recordOf(local, { ...fact, at: fact.at ?? Date.now(), ...(who === null ? {} : { performedBy: who }) }),
    );
    void keep(local, records).then(async (problem) => {
      const text = problem === null ? null : await toldHere(problem.detail);
      setBusy(false);
      if (text !== null) {
        setSaid({ kind: 'problem', text });
        return;
      }
      setSaid({ kind: 'done', text: w.recordedHere });
      onDone?.();
    });
  };
  return (
    <form className="stack record-form no-print" onSubmit={submit}>
      {begun !== null && <BegunNote begun={begun} zone={local.season.timeZone} />}
      {children}
      <div className="row">
        <button type="submit" className="button" disabled={busy}>
          {asked === null ? (label ?? w.record) : w.keepIt}
        </button>
        {asked !== null && (
          <p role="alert" className="problem">
            {asked.text}
          </p>
        )}
        {said !== null && (
          <p role={said.kind === 'done' ? 'status' : 'alert'} className={said.kind === 'done' ? 'faint' : 'problem'}>
            {said.text}
          </p>
        )}
      </div>
    </form>
  );
}
