import type { Batch, CurrentRecord } from '@furrowmark/domain';
import { useEffect, useState } from 'react';
import { Link, useLocation } from 'wouter';
import { spanText, whenText } from '../clock/text.ts';
import type { Problem } from '../http/ask.ts';
import type { LocalSeason } from '../season/local.ts';
import { remember, settings } from '../session/settings.ts';
import type { SentRecord } from '../store/queued.ts';
import { forgetUnfinished } from '../store/unfinished.ts';
import { AmountField } from './AmountField.tsx';
import { Before } from './Before.tsx';
import { quantityOf, type Field, type Form } from './forms/index.ts';
import { limitsOf } from './limits.ts';
import { PhotoField } from './PhotoField.tsx';
import { attachment } from './photo.ts';
import { PickField } from './PickField.tsx';
import { TimeField } from './TimeField.tsx';
import { useCheck } from './useCheck.ts';
import { useEntry } from './useEntry.ts';
import { useTankWords } from './useTank.ts';
import { whenItWas } from './unfinished.ts';
import type { Begun } from './useUnfinished.ts';
import { instantOfWhen } from './when.ts';
import { WhenField } from './WhenField.tsx';
import { WhoField } from './WhoField.tsx';
import { keep, recordOf } from './write.ts';
import { Told } from '../refusals/Told.tsx';

interface Props {
  readonly local: LocalSeason;
  readonly batch: Batch;
  readonly form: Form;
  readonly amending: CurrentRecord | undefined;
  readonly begun: Begun;
}

/** The form itself: figure and keys, picks, when, who, what the rules say before it is done, one button. */
export function Recording({ local, batch, form, amending, begun }: Props) {
  const { w, language } = useTankWords();
  const [, go] = useLocation();
  const entry = useEntry(local, batch, form, amending, begun);
  const { fields, answers, change, context, photos } = entry;
  const [active, setActive] = useState(
    () => fields.find(({ kind, upFront }) => kind === 'amount' && upFront)?.name ?? '',
  );
  const [problem, setProblem] = useState<string | Problem | null>(null);
  const [doubt, setDoubt] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const missing = missingOf(fields, answers);
  const draft = missing === null ? entry.make(entry.now) : null;
  const key = JSON.stringify([draft?.data, draft?.occurredAt.slice(0, 16), entry.who]);
  const ends = draft === null ? null : (form.takesUntil?.(draft.data, context) ?? null);
  const ahead = ends !== null && ends > entry.now ? ends : null;
  const outcomes = useCheck(local, draft === null || ahead === null ? draft : finishedAt(local, draft, ahead), key);
  useEffect(() => {
    setProblem(null);
    setDoubt(null);
  }, [answers, entry.when]);

  const save = async (): Promise<void> => {
    if (missing !== null) {
      setProblem(missing.kind === 'amount' ? w.figureMissing : w.pickMissing(missing.label));
      return;
    }
    const at = Date.now();
    const record = entry.make(at);
    const happened = instantOfWhen(entry.when, at);
    const wrong = wrongIn(entry, form, happened, at, photos.length);
    if (wrong !== null) {
      setProblem(w[wrong]);
      return;
    }
    const asked = [
      form.doubt?.(entry.dataAt(at), context) ?? null,
      happened > at + 60_000 ? w.liesAhead(spanText(happened - at)) : null,
    ].filter((each) => each !== null);
    if (asked.length > 0 && doubt === null) {
      setDoubt(w.doubt(asked.join(' ')));
      return;
    }
    setBusy(true);
    const documentIds = photos.map(({ documentId }) => documentId);
    const withPhotos =
      form.type === 'batch.checked' && documentIds.length > 0
        ? { ...record, data: { ...record.data, documentIds } }
        : record;
    const attached = photos.map((photo) =>
      recordOf(local, { type: 'document.attached', data: attachment(photo, [batch.id, record.id]), at: Date.now() }),
    );
    const failed = await keep(
      local,
      [withPhotos, ...attached],
      photos.map(({ file }) => file),
    );
    setBusy(false);
    if (failed !== null) {
      setProblem(failed);
      return;
    }
    forgetUnfinished(begun.id);
    const { instrumentId } = record.data;
    if (typeof instrumentId === 'string') {
      const what = form.id === 'oxygen' ? 'dissolvedOxygen' : 'chlorine';
      remember({ instruments: { ...settings.get().instruments, [what]: instrumentId } });
    }
    go(`/tank/${batch.id}`);
  };

  const front = fields.filter(({ upFront, required }) => upFront === true || required === true);
  const rest = fields.filter((field) => !front.includes(field));
  const shown = (field: Field) => {
    const answer = answers[field.name];
    const set = (next: NonNullable<typeof answer>): void => change(field.name, next);
    switch (field.kind) {
      case 'amount':
        return (
          <AmountField
            key={field.name}
            {...{ field, answer }}
            active={active === field.name}
            onActivate={() => setActive(field.name)}
            onChange={set}
          />
        );
      case 'pick':
        return <PickField key={field.name} {...{ field, answer }} onChange={set} />;
      case 'time':
        return (
          <TimeField
            key={field.name}
            label={field.label}
            at={answer?.kind === 'time' ? answer.at : null}
            zone={local.season.timeZone}
            ago={amending === undefined ? field.ago : undefined}
            onChange={(at) => set({ kind: 'time', at })}
          />
        );
      case 'text':
        return (
          <label key={field.name} className="stack tight">
            <span>
              {field.label} {field.required !== true && <span className="faint small">{w.optional}</span>}
            </span>
            <textarea
              rows={2}
              value={answer?.kind === 'text' ? answer.text : ''}
              onChange={(event) => set({ kind: 'text', text: event.target.value })}
            />
          </label>
        );
    }
  };
  return (
    <form
      className="page narrow recording"
      onSubmit={(event) => {
        event.preventDefault();
        void save();
      }}
    >
      <header className="recording-head">
        <Link href={`/tank/${batch.id}`} className="back" aria-label={w.all}>
          ←
        </Link>
        <h1>
          {amending !== undefined && `${w.amend}: `}
          {w[`do_${form.id}`]}
        </h1>
        <p className="faint">
          {vesselOf(local, batch, entry.now)} {batch.code}
        </p>
      </header>
      {begun.kept !== null && (
        <p role="status" className="row small">
          {w.unfinished(
            whenText(begun.kept.keptAt, local.season.timeZone, language, entry.now),
            whenText(whenItWas(begun.kept).value, local.season.timeZone, language, entry.now),
          )}
          <button type="button" className="chip" onClick={begun.anew}>
            {w.beginAnew}
          </button>
        </p>
      )}
      {front.map(shown)}
      <WhenField
        when={entry.when}
        now={entry.now}
        zone={local.season.timeZone}
        onChange={entry.setWhen}
        {...(form.timeOf === 'end' ? { label: w.whenEnded } : {})}
      />
      {/* Who applied it is who did it. */}
      {(amending !== undefined || !fields.some(({ name }) => name === 'applicator')) && (
        <WhoField context={context} who={entry.who} onChange={entry.setWho} />
      )}
      {rest.length > 0 && (
        <details className="more-fields" open={begun.kept !== null && rest.some(({ name }) => name in entry.given)}>
          <summary>{w.moreFields}</summary>
          <div className="stack">{rest.map(shown)}</div>
        </details>
      )}
      {amending === undefined && <PhotoField photos={photos} onChange={entry.setPhotos} />}
      {form.caution !== undefined && (
        <p className="caution-note">
          <strong>{w.cautionTitle}.</strong> {w[`caution_${form.caution}`]}
        </p>
      )}
      <div className="recording-foot">
        {ahead !== null && <TakesTill local={local} batch={batch} at={ahead} now={entry.now} />}
        <Before outcomes={outcomes} engine={local.engine} />
        {problem !== null && (
          <div role="alert" className="problem">
            {typeof problem === 'string' ? problem : <Refusal problem={problem} />}
          </div>
        )}
        {doubt !== null && (
          <p role="alert" className="problem">
            {doubt}
          </p>
        )}
        <button type="submit" className="button wide big" disabled={busy}>
          {doubt !== null ? w.keepIt : w.record}
        </button>
      </div>
    </form>
  );
}

const day = 86_400_000;

/** What cannot be recorded as it stands, told in the words of this page rather than the service's. */
function wrongIn(
  { dataAt, answers }: ReturnType<typeof useEntry>,
  form: Form,
  happened: number,
  now: number,
  photos: number,
): 'nothingSaid' | 'tooFarAhead' | 'endsTooSoon' | null {
  if (form.saysNothingAlone === true && photos === 0 && Object.keys(dataAt(now)).every((name) => name === 'batchId'))
    return 'nothingSaid';
  if (happened > now + day) return 'tooFarAhead';
  const { startedAt } = answers;
  return startedAt?.kind === 'time' && startedAt.at > happened ? 'endsTooSoon' : null;
}

/** The draft as it will be when it is done. */
function finishedAt({ engine, season }: LocalSeason, draft: SentRecord, at: number): SentRecord {
  const text = engine.domain.zonedText(Math.ceil(at / 1000) * 1000, season.timeZone);
  return { ...draft, occurredAt: text, data: { ...draft.data, finishedAt: text } };
}

interface TakesProps {
  readonly local: LocalSeason;
  readonly batch: Batch;
  readonly at: number;
  readonly now: number;
}

/** `Takes until 15:10 at least … Apply by 14:35`: what the ground needs beside what the tea gives. */
function TakesTill({ local: { engine, season }, batch, at, now }: TakesProps) {
  const { w, language } = useTankWords();
  const text = (instant: number): string => whenText(instant, season.timeZone, language, now);
  const hold = limitsOf(engine, season, batch).find(({ name }) => name === 'holdMost');
  const over = hold !== undefined && at > hold.at;
  return (
    <p className={over ? 'problem' : 'small'} role={over ? 'alert' : undefined}>
      {w.takesTill(text(at))} {hold !== undefined && <strong>{w.limit_holdMost(text(hold.at))}.</strong>}
    </p>
  );
}

function Refusal({ problem }: { readonly problem: Problem }) {
  const { w } = useTankWords();
  return (
    <>
      <p>{w.notTaken}</p>
      <ul>
        {(problem.errors.length > 0 ? problem.errors : [{ pointer: '', detail: problem.detail }]).map(
          ({ pointer, detail }) => (
            <li key={pointer}>
              <Told text={detail} />
            </li>
          ),
        )}
      </ul>
    </>
  );
}

function vesselOf({ engine, season }: LocalSeason, batch: Batch, now: number): string {
  const vessel = batch.vesselId === null ? undefined : season.vessel(batch.vesselId);
  return vessel === undefined ? '' : `${engine.domain.asOf(vessel, now).code} ·`;
}

/** The first required field that is still empty. */
function missingOf(
  fields: readonly Field[],
  answers: Readonly<Record<string, Parameters<typeof quantityOf>[0]>>,
): Field | null {
  return (
    fields.find((field) => {
      if (field.required !== true) return false;
      const answer = answers[field.name];
      if (answer === undefined) return true;
      if (answer.kind === 'amount') return quantityOf(answer) === undefined;
      if (answer.kind === 'pick') return answer.chosen.length === 0;
      return answer.kind === 'text' && answer.text.trim() === '';
    }) ?? null
  );
}
