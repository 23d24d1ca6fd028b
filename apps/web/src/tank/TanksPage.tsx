import { Link } from 'wouter';
import { EmptyPage } from '../app/EmptyPage.tsx';
import { useNow } from '../clock/useNow.ts';
import { useSeason, type SeasonState } from '../season/useSeason.ts';
import { useMayRecord } from '../session/useMayRecord.ts';
import { Clocks, OxygenLine } from './Clocks.tsx';
import { dueText } from './dueText.ts';
import { tanksNow, type Tank } from './model.ts';
import './tank.css';
import { TankRibbon } from './TankRibbon.tsx';
import { useTankWords } from './useTank.ts';

type Ready = Extract<SeasonState, { kind: 'ready' }>;

/** What is brewing and what is due, the most pressing first. */
export default function TanksPage() {
  const state = useSeason();
  return state.kind === 'ready' ? <Tanks {...state} /> : <EmptyPage kind={state.kind} />;
}

function Tanks({ engine, season }: Ready) {
  const { w } = useTankWords();
  const now = useNow();
  const mayRecord = useMayRecord();
  const tanks = tanksNow(engine, season, now);
  const inUse = new Set(tanks.map(({ batch }) => batch.vesselId));
  const idle = season
    .vessels()
    .filter(({ id, retired }) => !inUse.has(id) && (retired === undefined || retired.at > now));
  return (
    <section className="page tanks">
      <h1>{w.tanks}</h1>
      {tanks.length === 0 && <p className="faint">{w.nothingBrewing}</p>}
      <ul className="tank-list">
        {tanks.map((tank) => (
          <li key={tank.batch.id}>
            <TankCard tank={tank} now={now} zone={season.timeZone} />
          </li>
        ))}
      </ul>
      {mayRecord && idle.length > 0 && (
        <section className="stack">
          <h2>{w.idle}</h2>
          <ul className="idle">
            {idle.map((vessel) => {
              const last = season
                .batchesIn(vessel.id)
                .toSorted((a, b) => startOf(a) - startOf(b))
                .at(-1);
              return (
                <li key={vessel.id}>
                  <Link href={`/start/${vessel.id}`} className="idle-link">
                    <span>
                      <strong>{engine.domain.asOf(vessel, now).code}</strong>{' '}
                      {last !== undefined && <span className="faint small">{w.lastHere(last.code)}</span>}
                    </span>
                    <span>{w.start}</span>
                  </Link>
                </li>
              );
            })}
          </ul>
        </section>
      )}
    </section>
  );
}

const startOf = (batch: Tank['batch']): number => batch.opened?.at.at ?? batch.records[0]?.at.at ?? 0;

/** One tank: whose turn it is, the clock, the ribbon, and the next record as one large control. */
function TankCard({ tank, now, zone }: { readonly tank: Tank; readonly now: number; readonly zone: string }) {
  const { w, language } = useTankWords();
  const { batch, vesselCode, next } = tank;
  const [first] = next;
  const mayRecord = useMayRecord();
  return (
    <article className="card tank-card">
      <h2 className="tank-head">
        <Link href={`/tank/${batch.id}`}>
          <span className="tank-code">{vesselCode}</span> <span className="faint">{batch.code}</span>
        </Link>
        <span className={`phase phase-${batch.phase}`}>{w[`phase_${batch.phase}`]}</span>
      </h2>
      <Clocks tank={tank} now={now} zone={zone} />
      <TankRibbon tank={tank} now={now} zone={zone} />
      <OxygenLine tank={tank} now={now} zone={zone} />
      {mayRecord && first !== undefined && (
        <Link
          href={`/tank/${batch.id}/record/${first.form}`}
          className={`next${first.at !== null && first.side === 'by' && first.at < now ? ' is-late' : ''}`}
        >
          <span className="next-do">{w[`do_${first.form}`]}</span>
          <span className="next-when">{dueText(first, now, zone, language, w)}</span>
        </Link>
      )}
    </article>
  );
}
