import { useContext, useEffect } from 'react';
import { Link } from 'wouter';
import { EmptyPage } from '../app/EmptyPage.tsx';
import { NoTankYet } from '../app/NoTankYet.tsx';
import { Views } from '../app/view.ts';
import { FarmTime } from '../clock/FarmTime.tsx';
import { useNow } from '../clock/useNow.ts';
import { useMayRecord } from '../session/useMayRecord.ts';
import { Clocks, OxygenLine } from './Clocks.tsx';
import { dueText } from './dueText.ts';
import { getReady } from './getReady.ts';
import type { Tank, TanksView } from './model.ts';
import './tank.css';
import { TankRibbon } from './TankRibbon.tsx';
import { useTankWords } from './useTank.ts';
import { useTanks } from './useTanks.ts';

/** What is brewing and what is due, the most pressing first. */
export default function TanksPage() {
  const state = useTanks();
  const { w } = useTankWords();
  const views = useContext(Views);
  useEffect(() => {
    if (state.kind === 'ready' && state.fresh) getReady(views);
  });
  return state.kind === 'ready' ? <Tanks view={state.view} /> : <EmptyPage kind={state.kind} title={w.tanks} />;
}

function Tanks({ view: { tanks, idle, zone } }: { readonly view: TanksView }) {
  const { w } = useTankWords();
  const now = useNow();
  const mayRecord = useMayRecord();
  return (
    <section className="page tanks">
      <h1>{w.tanks}</h1>
      <FarmTime zone={zone} now={now} />
      {tanks.length === 0 && idle.length === 0 && <NoTankYet />}
      {tanks.length === 0 && idle.length > 0 && <p className="faint">{w.nothingBrewing}</p>}
      <ul className="tank-list">
        {tanks.map((tank) => (
          <li key={tank.batchId}>
            <TankCard tank={tank} now={now} zone={zone} />
          </li>
        ))}
      </ul>
      {mayRecord && idle.length > 0 && (
        <section className="stack">
          <h2>{w.idle}</h2>
          <ul className="idle">
            {idle.map(({ vesselId, code, last }) => (
              <li key={vesselId}>
                <Link href={`/start/${vesselId}`} className="idle-link">
                  <span>
                    <strong>{code}</strong> {last !== null && <span className="faint small">{w.lastHere(last)}</span>}
                  </span>
                  <span>{w.start}</span>
                </Link>
              </li>
            ))}
          </ul>
          <p>
            <Link href="/registers#vessel.registered" className="button quiet">
              {w.cleanedOne}
            </Link>
          </p>
        </section>
      )}
    </section>
  );
}

/** One tank: whose turn it is, the clock, the ribbon, and the next record as one large control. */
function TankCard({ tank, now, zone }: { readonly tank: Tank; readonly now: number; readonly zone: string }) {
  const { w, language } = useTankWords();
  const { batchId, code, phase, vesselCode, next } = tank;
  const [first] = next;
  const mayRecord = useMayRecord();
  return (
    <article className="card tank-card">
      <h2 className="tank-head">
        <Link href={`/tank/${batchId}`}>
          <span className="tank-code">{vesselCode}</span> <span className="faint">{code}</span>
        </Link>
        <span className={`phase phase-${phase}`}>{w[`phase_${phase}`]}</span>
      </h2>
      <Clocks tank={tank} now={now} zone={zone} />
      <TankRibbon tank={tank} now={now} zone={zone} />
      <OxygenLine tank={tank} now={now} zone={zone} />
      {mayRecord && first !== undefined && (
        <Link
          href={`/tank/${batchId}/record/${first.form}`}
          className={`next${first.at !== null && first.side === 'by' && first.at < now ? ' is-late' : ''}`}
        >
          <span className="next-do">{w[`do_${first.form}`]}</span>
          <span className="next-when">{dueText(first, now, zone, language, w)}</span>
        </Link>
      )}
    </article>
  );
}
