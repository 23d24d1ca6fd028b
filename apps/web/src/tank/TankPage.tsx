import { useState } from 'react';
import { Link, useParams } from 'wouter';
import { EmptyPage } from '../app/EmptyPage.tsx';
import { useNow } from '../clock/useNow.ts';
import { quantityText, shownQuantity } from '../quantity/text.ts';
import { useSeason, type SeasonState } from '../season/useSeason.ts';
import { useMayRecord } from '../session/useMayRecord.ts';
import { Clocks, OxygenLine } from './Clocks.tsx';
import { dueText } from './dueText.ts';
import { formIds } from './forms/ids.ts';
import { tankOf, type Tank } from './model.ts';
import { likely } from './next.ts';
import { Recent } from './Recent.tsx';
import './tank.css';
import { TankRibbon } from './TankRibbon.tsx';
import { UnknownBatch } from './UnknownBatch.tsx';
import { useTankWords } from './useTank.ts';
import { WeighOut } from './WeighOut.tsx';

type Ready = Extract<SeasonState, { kind: 'ready' }>;

/** One tank: the clock, the next record, what else is likely, what was recorded. */
export default function TankPage() {
  const { batchId = '' } = useParams<{ batchId: string }>();
  const state = useSeason();
  const now = useNow();
  if (state.kind !== 'ready') return <EmptyPage kind={state.kind} />;
  const batch = state.season.batch(batchId);
  if (batch === undefined) return <UnknownBatch />;
  return <OneTank local={state} tank={tankOf(state.engine, state.season, batch, now)} now={now} />;
}

function OneTank({ local, tank, now }: { readonly local: Ready; readonly tank: Tank; readonly now: number }) {
  const { w, language, units } = useTankWords();
  const { batch, vesselCode } = tank;
  const zone = local.season.timeZone;
  const mayRecord = useMayRecord();
  const feeding = batch.phase === 'filled' || batch.phase === 'aerating' || batch.phase === 'brewing';
  return (
    <section className="page narrow one-tank">
      <header className="tank-head">
        <h1>
          <span className="tank-code">{vesselCode}</span> <span className="faint">{batch.code}</span>
        </h1>
        <span className={`phase phase-${batch.phase}`}>{w[`phase_${batch.phase}`]}</span>
      </header>
      <div className="card tank-card">
        <Clocks tank={tank} now={now} zone={zone} engine={local.engine} />
        <TankRibbon tank={tank} now={now} zone={zone} />
        <OxygenLine tank={tank} now={now} zone={zone} />
        {tank.contentL !== null && <p className="faint small">{w.inTank(contentText(local, tank, language, units))}</p>}
      </div>
      {mayRecord && <Actions tank={tank} now={now} zone={zone} />}
      {mayRecord && feeding && <WeighOut local={local} batch={batch} now={now} />}
      <Recent local={local} batch={batch} now={now} />
      <p className="row">
        <Link href={`/batch/${batch.id}`} className="button quiet">
          {w.toBatch}
        </Link>
        <Link href="/" className="button quiet">
          {w.all}
        </Link>
      </p>
    </section>
  );
}

function contentText(
  { engine }: Ready,
  { batch, contentL }: Tank,
  language: 'en' | 'es',
  units: 'asWritten' | 'us' | 'metric',
): string {
  const unit = batch.fills[0]?.quantity.unit ?? 'L';
  const value = engine.domain.numberIn({ value: contentL ?? 0, unit: 'L' }, unit);
  const quantity = value === null ? { value: contentL ?? 0, unit: 'L' } : { value: Number(value.toPrecision(3)), unit };
  return units === 'asWritten' ? quantityText(quantity, language) : shownQuantity(quantity, language, units, engine);
}

/** The next record as the largest control, what else is likely beside it, the rest behind one touch. */
function Actions({ tank, now, zone }: { readonly tank: Tank; readonly now: number; readonly zone: string }) {
  const { w, language } = useTankWords();
  const [all, setAll] = useState(false);
  const { batch, next } = tank;
  const [first, ...others] = next;
  const then = others
    .filter(
      ({ form, at }, i) => form !== first?.form && at !== null && others.findIndex((each) => each.form === form) === i,
    )
    .slice(0, 2);
  const small = likely(batch).filter((form) => form !== first?.form);
  const rest = formIds.filter((form) => form !== first?.form && !small.includes(form));
  const to = (form: string): string => `/tank/${batch.id}/record/${form}`;
  return (
    <div className="actions">
      {first !== undefined && (
        <Link
          href={to(first.form)}
          className={`next${first.side === 'by' && first.at !== null && first.at < now ? ' is-late' : ''}`}
        >
          <span className="next-do">{w[`do_${first.form}`]}</span>
          <span className="next-when">{dueText(first, now, zone, language, w)}</span>
        </Link>
      )}
      {then.length > 0 && (
        <ul className="then">
          {then.map((each) => (
            <li key={each.form + String(each.ruleId)}>
              {w[`short_${each.form}`]} {dueText(each, now, zone, language, w)}
            </li>
          ))}
        </ul>
      )}
      <div className="small-actions">
        {[...small, ...(all ? rest : [])].map((form) => (
          <Link key={form} href={to(form)} className="small-action">
            {w[`short_${form}`]}
          </Link>
        ))}
        <button type="button" className="small-action other" aria-expanded={all} onClick={() => setAll(!all)}>
          {all ? w.lessElse : w.somethingElse}
        </button>
      </div>
    </div>
  );
}
