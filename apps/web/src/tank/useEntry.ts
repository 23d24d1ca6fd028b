import type { Batch, CurrentRecord } from '@furrowmark/domain';
import { v7 } from 'uuid';
import { useMemo, useRef, useState } from 'react';
import { whoHere } from '../records/person.ts';
import type { LocalSeason } from '../season/local.ts';
import { settings } from '../session/settings.ts';
import { useExternal } from '../store/external.ts';
import type { Photo, SentRecord } from '../store/queued.ts';
import { useNow } from '../clock/useNow.ts';
import { dataOf, firstAnswers, type Answer, type Answers, type Data, type Form } from './forms/index.ts';
import { answersAgain, answersGiven, whenItWas } from './unfinished.ts';
import { useTankWords } from './useTank.ts';
import { useKeptAsTyped, type Begun } from './useUnfinished.ts';
import { instantOfWhen, whenNow, type When } from './when.ts';
import { recordOf } from './write.ts';

/** A record being written: its fields, what was entered now or before the page was left, and the record that this makes. */
export function useEntry(
  local: LocalSeason,
  batch: Batch,
  form: Form,
  amending: CurrentRecord | undefined,
  { id: keptAs, kept }: Begun,
) {
  const { engine, season } = local;
  const { w, language } = useTankWords();
  const set = useExternal(settings);
  const now = useNow();
  const opened = useRef(now);
  // What is offered is settled when the form opens: options do not move under a finger.
  const context = useMemo(
    () => ({
      engine,
      season,
      batch,
      now: opened.current,
      settings: set,
      w,
      language,
      amending: amending !== undefined,
    }),
    [engine, season, batch, set, w, language, amending],
  );
  const fields = useMemo(() => form.fields(context), [form, context]);
  const said = useMemo((): Data | null => {
    if (amending === undefined) return null;
    const data = Object.fromEntries(Object.entries(amending.data));
    return form.open?.(data) ?? data;
  }, [amending, form]);
  const [first] = useState<Answers>(() => firstAnswers(fields, said, engine.domain.instantOf));
  const [opening] = useState(() => ({
    answers: kept === null ? first : answersAgain(fields, first, kept.answers),
    when: kept === null ? whenOf(amending) : whenItWas(kept),
    who: kept === null ? (amending?.performedBy ?? whoHere(season)) : whoHere(season, kept.who),
    photos: kept?.photos ?? [],
  }));
  const [answers, setAnswers] = useState<Answers>(opening.answers);
  const [when, setWhen] = useState<When>(opening.when);
  const [who, setWho] = useState<string | null>(opening.who);
  const [photos, setPhotos] = useState<readonly Photo[]>(opening.photos);
  const untouched =
    answers === opening.answers && when === opening.when && who === opening.who && photos === opening.photos;
  const given = useMemo(() => answersGiven(answers, first), [answers, first]);
  useKeptAsTyped(keptAs, { answers: given, when, who, photos }, untouched);
  const id = useRef(v7());

  const text = (instant: number): string => engine.domain.zonedText(instant, season.timeZone);
  /** What the record says, were it recorded at `at`. */
  const dataAt = (at: number): Data => {
    const filled = { ...keptOf(said, form), ...dataOf(fields, answers, text) };
    return form.finish?.(filled, context, text(instantOfWhen(when, at))) ?? { batchId: batch.id, ...filled };
  };
  const make = (at: number): SentRecord => {
    const moment = instantOfWhen(when, at);
    const data = dataAt(at);
    if (amending === undefined) {
      const { applicator } = data;
      const performedBy = (typeof applicator === 'string' ? applicator : who) ?? undefined;
      const { plusMinus: plusMinusMinutes, origin } = when;
      return recordOf(local, { type: form.type, data, at: moment, plusMinusMinutes, performedBy, origin }, id.current);
    }
    const performedBy = who ?? undefined;
    const correction = {
      ...{ recordId: amending.id, type: amending.type, version: amending.version, data, reason: w.wrongFigure },
      ...(moment === amending.at.at ? {} : { occurredAt: text(moment) }),
      ...(performedBy === undefined || performedBy === amending.performedBy ? {} : { performedBy }),
    };
    return recordOf(local, { type: 'record.amended', data: correction, at }, id.current);
  };
  const change = (name: string, answer: Answer): void => setAnswers((before) => ({ ...before, [name]: answer }));
  return {
    ...{ context, fields, answers, given, change, when, setWhen, who, setWho, photos, setPhotos },
    ...{ dataAt, make, now },
  };
}

const whenOf = (amending: CurrentRecord | undefined): When =>
  amending === undefined ? whenNow : { ...whenNow, kind: 'at', value: amending.at.at };

/** Members of the amended record that the form has no field for stay as they were. */
function keptOf(said: Data | null, form: Form): Data {
  if (said === null) return {};
  // These the form makes anew from its fields.
  const made: readonly string[] = form.id === 'apply' ? ['targets', 'draws', 'tankMix', 'finishedAt'] : [];
  return Object.fromEntries(Object.entries(said).filter(([name]) => !made.includes(name)));
}
