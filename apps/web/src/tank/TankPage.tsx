import type { Batch } from '@furrowmark/domain';
import { useState } from 'react';
import { Link, useParams } from 'wouter';
import { EmptyPage } from '../app/EmptyPage.tsx';
import { useNow } from '../clock/useNow.ts';
import { quantityText, shownQuantity } from '../quantity/text.ts';
import type { LocalSeason } from '../season/local.ts';
import { useSeason } from '../season/useSeason.ts';
import { useMayRecord } from '../session/useMayRecord.ts';
import { Clocks, OxygenLine } from './Clocks.tsx';
import { dueText } from './dueText.ts';
import { formIds } from './forms/ids.ts';
import { tankOf, type Tank } from './model.ts';
import { Recent } from './Recent.tsx';
import './tank.css';
import { TankRibbon } from './TankRibbon.tsx';
import { UnknownBatch } from './UnknownBatch.tsx';
import { useTankWords } from './useTank.ts';
import { useTanks } from './useTanks.ts';
import { WeighOut } from './WeighOut.tsx';

/** One tank: the clock, the next record, what else is likely, what was recorded. */
export default function TankPage() {
  const { batchId = '' } = useParams<{ batchId: string }>();
  const tanks = useTanks();
  const season = useSeason();
  const now = useNow();
  const tank = tanks.kind === 'ready' ? tanks.view.tanks.find((each) => each.batchId === batchId) : undefined;
  const local = season.kind === 'ready' ? season : null;
  const batch = local?.season.batch(batchId);
  if (tanks.kind === 'ready' && tank !== undefined)
    return <OneTank {...{ tank, local, now }} zone={tanks.view.zone} batch={batch} />;
  if (local !== null && batch !== undefined && tanks.kind === 'ready' && tanks.fresh)
    // Over by now: nothing is due, what was recorded can still be put right.
    return (
      <OneTank
        {...{ local, batch, now }}
        tank={tankOf(local.engine, local.season, batch, now)}
        zone={local.season.timeZone}
      />
    );
  if (tanks.kind === 'failed' || tanks.kind === 'empty') return <EmptyPage kind={tanks.kind} />;
  if (local !== null && batch === undefined && tanks.kind === 'ready' && tanks.fresh) return <UnknownBatch />;
  return <EmptyPage kind={season.kind === 'ready' ? 'loading' : season.kind} />;
}

interface Props {
  readonly tank: Tank;
  readonly now: number;
  readonly zone: string;
  /** The season on this page's own thread: a moment after the picture. */
  readonly local: LocalSeason | null;
  readonly batch: Batch | undefined;
}

function OneTank({ tank, now, zone, local, batch }: Props) {
  const { w, language, units } = useTankWords();
  const { batchId, code, phase, vesselCode, content } = tank;
  const mayRecord = useMayRecord();
  const feeding = phase === 'filled' || phase === 'aerating' || phase === 'brewing';
  return (
    <section className="page narrow one-tank">
      <header className="tank-head">
        <h1>
          <span className="tank-code">{vesselCode}</span> <span className="faint">{code}</span>
        </h1>
        <span className={`phase phase-${phase}`}>{w[`phase_${phase}`]}</span>
      </header>
      <div className="card tank-card">
        <Clocks tank={tank} now={now} zone={zone} withReasons />
        <TankRibbon tank={tank} now={now} zone={zone} />
        <OxygenLine tank={tank} now={now} zone={zone} />
        {content !== null && phase !== 'closed' && phase !== 'reviewed' && (
          <p className="faint small">
            {w.inTank(
              local === null ? quantityText(content, language) : shownQuantity(content, language, units, local.engine),
            )}
          </p>
        )}
      </div>
      {mayRecord && <Actions tank={tank} now={now} zone={zone} />}
      {local !== null && batch !== undefined ? (
        <>
          {mayRecord && feeding && <WeighOut local={local} batch={batch} now={now} />}
          <Recent local={local} batch={batch} now={now} />
        </>
      ) : (
        <div className="bone bone-card" />
      )}
      <p className="row">
        <Link href={`/batch/${batchId}`} className="button quiet">
          {w.toBatch}
        </Link>
        <Link href="/" className="button quiet">
          {w.all}
        </Link>
      </p>
    </section>
  );
}

/** The next record as the largest control, what else is likely beside it, the rest behind one touch. */
function Actions({ tank, now, zone }: { readonly tank: Tank; readonly now: number; readonly zone: string }) {
  const { w, language } = useTankWords();
  const [all, setAll] = useState(false);
  const { batchId, next, likely } = tank;
  const [first, ...others] = next;
  const then = others
    .filter(
      ({ form, at }, i) => form !== first?.form && at !== null && others.findIndex((each) => each.form === form) === i,
    )
    .slice(0, 2);
  const small = likely.filter((form) => form !== first?.form);
  const rest = formIds.filter((form) => form !== first?.form && !small.includes(form));
  const to = (form: string): string => `/tank/${batchId}/record/${form}`;
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
